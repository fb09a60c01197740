import styles from './chart.module.css';
import type { TimeAxis } from './time-axis';
import type { ValueAxis } from './value-axis';

/** The time axis drawn as a tape: week ticks, longer month ticks, month names, years in the second line. */
export function TapeAxis({ axis, y, fromX, toX }: { axis: TimeAxis; y: number; fromX: number; toX: number }) {
  return (
    <g>
      <path className={styles.axisLine} d={`M${fromX} ${y}H${toX}`} />
      <path className={styles.axisTicks} d={axis.weeks.map((x) => `M${x} ${y}v3.5`).join('')} />
      <path className={styles.axisTicks} d={axis.months.map(({ x }) => `M${x} ${y}v8`).join('')} />
      {axis.months.map(({ x, middle, name, year }) => (
        <g key={x}>
          {name && middle < toX && (
            <text className={styles.axisText} x={middle} y={y + 19} textAnchor="middle">
              {name}
            </text>
          )}
          {year && middle < toX && (
            <text className={styles.axisYear} x={middle} y={y + 34} textAnchor="middle">
              {year}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

/** Horizontal hairlines with their values at the left. */
export function ValueLines({ axis, fromX, toX, show }: { axis: ValueAxis; fromX: number; toX: number; show: (value: number) => string }) {
  return (
    <g>
      {axis.ticks.map((tick) => (
        <g key={tick}>
          <line className={styles.grid} x1={fromX} x2={toX} y1={axis.y(tick)} y2={axis.y(tick)} />
          <text className={styles.axisText} x={fromX - 8} y={axis.y(tick) + 4} textAnchor="end">
            {show(tick)}
          </text>
        </g>
      ))}
    </g>
  );
}
