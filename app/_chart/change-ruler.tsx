import { StaticMarkup } from '@/app/_markup/static-markup';
import type { Side } from '@/lib/ladder/limb';
import { signedPct } from '@/lib/prompts/show-figures';
import styles from './chart.module.css';
import { SideMark } from './side-mark';
import { valueAxis } from './value-axis';

/** One row of the ruler: a change of volume against an earlier ladder, all figures as shares. */
export type ChangeRow = {
  readonly since: string;
  readonly note: string | null;
  readonly change: number;
  /** 95 % reach of the measured change, to both sides. */
  readonly reach: number;
  readonly smallestReal: number;
  readonly expected: { readonly low: number; readonly middle: number; readonly high: number } | null;
};

const WIDTH = 520;
const FROM_X = 132;
const TO_X = 440;
const STEP = 46;
const TOP = 18;

type Props = {
  readonly rows: readonly ChangeRow[];
  /** Rows of the rulers that stand beside this one: all are drawn to one scale. */
  readonly beside: readonly ChangeRow[];
  readonly side: Side;
  readonly name: string;
};

/** Measured change beside what is too small to tell from tape error (grey hatch) and what height, weight or the other limb lead one to expect (violet box). */
export function ChangeRuler({ rows, beside, side, name }: Props) {
  const ends = [...rows, ...beside].flatMap((row) => [
    row.change - row.reach,
    row.change + row.reach,
    -row.smallestReal,
    row.smallestReal,
    ...(row.expected ? [row.expected.low, row.expected.high] : []),
  ]);
  const axis = valueAxis(Math.min(0, ...ends), Math.max(0, ...ends), FROM_X, TO_X, 6);
  const bottom = TOP + rows.length * STEP;
  const said = rows.map((row) => `Volume since ${row.since}${row.note ? `, ${row.note}` : ''}: ${signedPct(row.change)}.`).join(' ');
  return (
    <StaticMarkup
      as="svg"
      className={`${styles.chart} ${styles.changeRuler}`}
      data-drawing="chart"
      viewBox={`0 0 ${WIDTH} ${bottom + 30}`}
      width={WIDTH}
      height={bottom + 30}
      role="img"
      aria-label={said}
    >
      <g data-side={side}>
        <defs>
          <pattern id={`${name}-noise`} width={5} height={5} patternUnits="userSpaceOnUse">
            <path className={styles.noiseHatch} d="M-1.25 1.25l2.5-2.5M0 5L5 0M3.75 6.25l2.5-2.5" />
          </pattern>
        </defs>
        <text className={styles.axisText} x={WIDTH} y={bottom + 20} textAnchor="end">
          of volume
        </text>
        {axis.ticks.map((tick) => (
          <g key={tick}>
            <line className={styles.grid} x1={axis.y(tick)} x2={axis.y(tick)} y1={TOP - 8} y2={bottom} />
            <text className={styles.axisText} x={axis.y(tick)} y={bottom + 20} textAnchor="middle">
              {signedPct(tick, 0)}
            </text>
          </g>
        ))}
        <line className={styles.axisLine} x1={axis.y(0)} x2={axis.y(0)} y1={TOP - 8} y2={bottom} />
        <line className={styles.axisLine} x1={FROM_X} x2={TO_X} y1={bottom} y2={bottom} />
        {rows.map((row, index) => {
          const y = TOP + index * STEP + STEP / 2 - 6;
          const at = axis.y;
          return (
            <g key={row.since}>
              <text x={0} y={y}>{`since ${row.since}`}</text>
              {row.note && (
                <text className={styles.axisText} x={0} y={y + 15}>
                  {row.note}
                </text>
              )}
              <rect
                fill={`url(#${name}-noise)`}
                x={at(-row.smallestReal)}
                y={y - 9}
                width={at(row.smallestReal) - at(-row.smallestReal)}
                height={18}
              />
              {row.expected && (
                <>
                  <rect
                    className={styles.expectedBox}
                    x={at(row.expected.low)}
                    y={y - 9}
                    width={Math.max(at(row.expected.high) - at(row.expected.low), 2)}
                    height={18}
                  />
                  <path className={styles.expectedBox} d={`M${at(row.expected.middle)} ${y - 9}v18`} />
                </>
              )}
              <path className={styles.tapedBar} d={`M${at(row.change - row.reach)} ${y}H${at(row.change + row.reach)}`} />
              <SideMark side={side} x={at(row.change)} y={y} />
              <text className={styles.rulerFigure} x={WIDTH} y={y + 5} textAnchor="end">
                {signedPct(row.change)}
              </text>
            </g>
          );
        })}
      </g>
    </StaticMarkup>
  );
}
