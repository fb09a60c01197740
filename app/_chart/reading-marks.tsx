'use client';

import { useLayoutEffect, useRef, useState } from 'react';
import { ComposedChart, Line, ReferenceLine, Tooltip, XAxis, YAxis } from 'recharts';
import chartStyles from './chart.module.css';
import styles from './read-in-place.module.css';
import type { ChartReadings } from './readings';
import { SideMark } from './side-mark';

type Props = { readonly of: ChartReadings; readonly at: number; readonly onAt: (visit: number) => void };
type Active = { readonly activeTooltipIndex?: number | string | null };

/** Lies over the drawn chart on the same scales: the day that is read, and its marks, larger. */
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
  const names = [...new Set(of.visits.flatMap(({ readings }) => readings.map(({ name }) => name)))];
  const rows = of.visits.map(({ day, readings }) => ({
    day,
    ...Object.fromEntries(readings.map(({ name, value }) => [name, value])),
  }));
  const read = ({ activeTooltipIndex }: Active) => {
    if (activeTooltipIndex === null || activeTooltipIndex === undefined) return;
    const visit = Number(activeTooltipIndex);
    if (Number.isInteger(visit) && of.visits[visit]) onAt(visit);
  };
  const here = of.visits[at];
  return (
    <div className={styles.marks} ref={box} aria-hidden="true">
      <ComposedChart
        width={width}
        height={of.height * scale}
        data={rows}
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
        <XAxis hide dataKey="day" type="number" domain={[...of.days]} allowDataOverflow />
        <YAxis hide type="number" domain={[...of.values]} allowDataOverflow width={0} />
        <Tooltip content={() => null} cursor={false} isAnimationActive={false} />
        {here && <ReferenceLine x={here.day} stroke="var(--ink)" strokeDasharray="2 3" />}
        {names.map((name) => (
          <Line
            key={name}
            dataKey={name}
            stroke="none"
            activeDot={false}
            isAnimationActive={false}
            dot={({ key, cx, cy, index }) => (
              <ReadMark key={key} x={cx} y={cy} visit={of.visits[index]} name={name} isHere={index === at} />
            )}
          />
        ))}
      </ComposedChart>
    </div>
  );
}

type MarkProps = {
  readonly x: number | undefined;
  readonly y: number | undefined;
  readonly visit: ChartReadings['visits'][number] | undefined;
  readonly name: string;
  readonly isHere: boolean;
};

/** The mark of a visit as it is drawn below, half as large again while it is read. */
function ReadMark({ x, y, visit, name, isHere }: MarkProps) {
  const side = visit?.readings.find((one) => one.name === name)?.side;
  if (!isHere || !side || x === undefined || y === undefined) return <g />;
  return (
    <g className={chartStyles.chart}>
      <g data-side={side} transform={`translate(${x} ${y}) scale(1.6)`}>
        <SideMark side={side} x={0} y={0} />
      </g>
    </g>
  );
}
