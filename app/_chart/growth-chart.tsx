import { StaticMarkup } from '@/app/_markup/static-markup';
import type { CalendarDay } from '@/lib/units/calendar-day';
import styles from './chart.module.css';
import { TapeAxis, ValueLines } from './chart-axes';
import { keepApart } from './keep-apart';
import { PointMark } from './point-mark';
import { timeAxis } from './time-axis';
import { valueAxis } from './value-axis';
import { ForecastHatch } from './volume-chart';

/** Height or weight of a child on the clinic's growth table, in the unit shown. */
export type GrowthLine = {
  readonly points: readonly {
    readonly day: CalendarDay;
    readonly value: number;
  }[];
  readonly reference: readonly {
    readonly day: CalendarDay;
    readonly p10: number;
    readonly p50: number;
    readonly p90: number;
  }[];
  readonly ahead: readonly {
    readonly day: CalendarDay;
    readonly low: number;
    readonly middle: number;
    readonly high: number;
  }[];
};

const WIDTH = 290;
const HEIGHT = 170;
const FROM_X = 34;
const TO_X = 246;
const TOP = 10;
const BOTTOM = 128;

/** The scales of a growth chart: of the drawing and of the readings over it. A line without a point has none. */
export function growthScales(line: GrowthLine) {
  const days = [...line.points, ...line.reference].map((point) => point.day).sort();
  const [from, to] = [days[0] as CalendarDay, days.at(-1) as CalendarDay];
  const all = [
    ...line.points.map((point) => point.value),
    ...line.reference.flatMap((row) => [row.p10, row.p90]),
    ...line.ahead.flatMap((row) => [row.low, row.high]),
  ];
  const middle = (Math.min(...all) + Math.max(...all)) / 2;
  const values = valueAxis(Math.min(...all, middle * 0.95), Math.max(...all, middle * 1.05), BOTTOM, TOP, 3);
  return { width: WIDTH, height: HEIGHT, fromX: FROM_X, toX: TO_X, top: TOP, bottom: BOTTOM, from, to, values };
}

/** A child's line on the 10th to 90th centile of a growth table, and this child's own place in it carried on. */
export function GrowthChart({ line, said }: { line: GrowthLine; said: string }) {
  const { from, to, values } = growthScales(line);
  const axis = timeAxis(from, to, FROM_X, TO_X);
  const path = (rows: readonly { day: CalendarDay }[], of: (index: number) => number): string =>
    rows.map((row, index) => `${index === 0 ? 'M' : 'L'}${axis.x(row.day)} ${values.y(of(index))}`).join('');
  const { reference, ahead, points } = line;
  const area = (rows: readonly { day: CalendarDay }[], low: (index: number) => number, high: (index: number) => number): string =>
    `${path(rows, high)}${rows
      .map((row, index) => ({ row, index }))
      .reverse()
      .map(({ row, index }) => `L${axis.x(row.day)} ${values.y(low(index))}`)
      .join('')}Z`;
  /** Small marks where many stand in a row. */
  const half = points.length > 20 ? 1 : 2;
  const lastReference = reference.at(-1);
  const centiles = ['p90', 'p50', 'p10'] as const;
  const centileY = lastReference
    ? keepApart(
        centiles.map((centile) => values.y(lastReference[centile])),
        14,
      )
    : [];
  return (
    <StaticMarkup
      as="svg"
      className={styles.chart}
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      width={WIDTH}
      height={HEIGHT}
      role="img"
      aria-label={said}
    >
      <ForecastHatch />
      <ValueLines axis={values} fromX={FROM_X} toX={TO_X} show={String} />
      {reference.length > 1 && (
        <>
          <path
            className={styles.referenceBand}
            d={area(
              reference,
              (index) => reference[index]?.p10 ?? 0,
              (index) => reference[index]?.p90 ?? 0,
            )}
          />
          <path
            className={styles.referenceEdge}
            d={path(reference, (index) => reference[index]?.p90 ?? 0) + path(reference, (index) => reference[index]?.p10 ?? 0)}
          />
          <path className={styles.referenceMiddle} d={path(reference, (index) => reference[index]?.p50 ?? 0)} />
        </>
      )}
      {ahead.length > 1 && (
        <>
          <path
            fill="url(#chart-ahead)"
            d={area(
              ahead,
              (index) => ahead[index]?.low ?? 0,
              (index) => ahead[index]?.high ?? 0,
            )}
          />
          <path className={styles.aheadLine} d={path(ahead, (index) => ahead[index]?.middle ?? 0)} />
        </>
      )}
      <path className={styles.bodyLine} d={path(points, (index) => points[index]?.value ?? 0)} />
      {points.map((point) => (
        <PointMark key={point.day} shape="square" x={axis.x(point.day)} y={values.y(point.value)} half={half} />
      ))}
      {lastReference &&
        centiles.map((centile, index) => (
          <text key={centile} className={styles.axisText} x={TO_X + 6} y={(centileY[index] as number) + 4}>
            {`${centile.slice(1)}th`}
          </text>
        ))}
      <TapeAxis axis={axis} y={BOTTOM} fromX={FROM_X} toX={TO_X} />
    </StaticMarkup>
  );
}
