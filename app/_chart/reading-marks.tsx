'use client';

import { useLayoutEffect, useRef, useState } from 'react';
import { ComposedChart, Line, ReferenceLine, Tooltip, XAxis, YAxis } from 'recharts';
import chartStyles from './chart.module.css';
import { PointMark } from './point-mark';
import styles from './read-in-place.module.css';
import type { ChartReadings, Reading, ReadPoint } from './readings';

type Props = { readonly of: ChartReadings; readonly at: number; readonly onAt: (point: number) => void };
type Active = { readonly activeTooltipIndex?: number | string | null };

/** Lies over the drawn chart on the same scales: the point that is read, and its marks, larger. */
export function ReadingMarks({ of, at, onAt }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(of.width);
  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return;
    const seen = new ResizeObserver(() => setWidth(element.clientWidth));
    seen.observe(element);
    return () => seen.disconnect();
  }, []);
  const scale = width / of.width;
  const names = [...new Set(of.points.flatMap(({ readings }) => readings.map(({ name }) => name)))];
  const read = ({ activeTooltipIndex }: Active) => {
    if (activeTooltipIndex === null || activeTooltipIndex === undefined) return;
    const point = Number(activeTooltipIndex);
    if (Number.isInteger(point) && of.points[point]) onAt(point);
  };
  const here = of.points[at];
  return (
    <div className={styles.marks} ref={box} aria-hidden="true">
      <ComposedChart
        width={width}
        height={of.height * scale}
        data={[...of.points]}
        margin={{
          left: of.fromX * scale,
          right: (of.width - of.toX) * scale,
          top: of.top * scale,
          bottom: (of.height - of.bottom) * scale,
        }}
        accessibilityLayer={false}
        onMouseMove={read}
        onClick={read}
        onTouchStart={read}
        onTouchMove={read}
      >
        <XAxis hide dataKey="at" type="number" domain={[...of.along]} allowDataOverflow />
        <YAxis hide type="number" domain={[...of.values]} allowDataOverflow width={0} />
        <Tooltip content={() => null} cursor={false} isAnimationActive={false} />
        {here && <ReferenceLine x={here.at} stroke="var(--ink)" strokeDasharray="2 3" />}
        {names.map((name) => (
          <Line
            key={name}
            dataKey={(point: ReadPoint) => readingOf(point, name)?.value}
            stroke="none"
            activeDot={false}
            isAnimationActive={false}
            dot={({ key, cx, cy, index }) => (
              <ReadMark key={key} x={cx} y={cy} reading={of.points[index] && readingOf(of.points[index], name)} isHere={index === at} />
            )}
          />
        ))}
      </ComposedChart>
    </div>
  );
}

function readingOf({ readings }: ReadPoint, name: string): Reading | undefined {
  return readings.find((one) => one.name === name);
}

type MarkProps = {
  readonly x: number | undefined;
  readonly y: number | undefined;
  readonly reading: Reading | undefined;
  readonly isHere: boolean;
};

/** The mark of a value as it is drawn below, half as large again while it is read. */
function ReadMark({ x, y, reading, isHere }: MarkProps) {
  if (!isHere || !reading || x === undefined || y === undefined) return <g />;
  return (
    <g className={chartStyles.chart}>
      <g data-side={reading.shape} transform={`translate(${x} ${y}) scale(1.6)`}>
        <PointMark shape={reading.shape} x={0} y={0} />
      </g>
    </g>
  );
}
