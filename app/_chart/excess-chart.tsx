import { StaticMarkup } from '@/app/_markup/static-markup';
import type { DatedExcess, ExcessBand } from '@/lib/analysis/excess-over-time';
import type { Side } from '@/lib/ladder/limb';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { showVolume } from '@/lib/units/volume';
import styles from './chart.module.css';
import { TapeAxis, ValueLines } from './chart-axes';
import { type ChartPhase, PhaseBand } from './phase-band';
import { SideMark } from './side-mark';
import { timeAxis } from './time-axis';
import { valueAxis } from './value-axis';

const WIDTH = 560;
const FROM_X = 52;
const LABELS = 92;
const TOP = 10;
const BOTTOM = 150;

type Props = {
  readonly side: Side;
  readonly points: readonly DatedExcess[];
  readonly bands: readonly ExcessBand[];
  readonly phases: readonly ChartPhase[];
  readonly from: CalendarDay;
  readonly to: CalendarDay;
  readonly today: CalendarDay;
  readonly said: string;
  /** Drawn so many px wide. */
  readonly width?: number;
};

/** The scales of an excess chart: of the drawing and of the readings over it. */
export function excessScales({ points, from, to, width = WIDTH }: Pick<Props, 'points' | 'from' | 'to' | 'width'>) {
  const toX = width - LABELS;
  const pcts = points.flatMap(({ share, error }) => [100 * (share - error), 100 * (share + error)]);
  const values = valueAxis(Math.min(0, ...pcts), Math.max(...pcts), BOTTOM, TOP);
  return {
    width,
    height: BOTTOM + 44,
    fromX: FROM_X,
    toX,
    top: TOP,
    bottom: BOTTOM,
    from,
    to,
    axis: timeAxis(from, to, FROM_X, toX),
    values,
  };
}

/** Excess over the other limb, %, on the dates of the volume above it: an error bar at each mark, published bands as washes, bounds of phases. */
export function ExcessChart({ side, points, bands, phases, from, to, today, said, width = WIDTH }: Props) {
  const { toX, axis, values } = excessScales({ points, from, to, width });
  const within = bands.flatMap((band) => {
    const [low, high] = [Math.max(band.fromPct, values.low), Math.min(band.toPct ?? values.high, values.high)];
    return high > low ? [{ ...band, top: values.y(high), bottom: values.y(low) }] : [];
  });
  const last = points.at(-1);
  /** Whether a band's name beside the plot would stand clear of the last value's words. */
  const isFree = (top: number, bottom: number): boolean => !last || Math.abs((top + bottom) / 2 - values.y(100 * last.share)) > 30;
  const todayX = axis.x(today);
  return (
    <StaticMarkup
      as="svg"
      className={styles.chart}
      viewBox={`0 0 ${width} ${BOTTOM + 44}`}
      width={width}
      height={BOTTOM + 44}
      role="img"
      aria-label={said}
    >
      {within.map(({ name, top, bottom }, index) => (
        <g key={name}>
          <rect
            className={index % 2 === 0 ? styles.excessWash : `${styles.excessWash} ${styles.lighter}`}
            x={FROM_X}
            y={top}
            width={toX - FROM_X}
            height={bottom - top}
          />
          <text className={styles.axisText} x={isFree(top, bottom) ? toX + 8 : FROM_X + 5} y={(top + bottom) / 2 + 4}>
            {name}
          </text>
        </g>
      ))}
      <ValueLines axis={values} fromX={FROM_X} toX={toX} show={(value) => `${value} %`} />
      {phases.length > 0 && <PhaseBand phases={phases} axis={axis} today={today} top={TOP} bottom={BOTTOM} toX={toX} boundsOnly />}
      <g data-side={side}>
        {points.map(({ day, share, error }) => (
          <path
            key={day}
            className={styles.errorBar}
            d={`M${axis.x(day)} ${values.y(100 * (share - error))}V${values.y(100 * (share + error))}`}
          />
        ))}
        <path
          className={styles.valueLine}
          d={points.map(({ day, share }, index) => `${index === 0 ? 'M' : 'L'}${axis.x(day)} ${values.y(100 * share)}`).join('')}
        />
        {points.map(({ day, share }) => (
          <SideMark key={day} side={side} x={axis.x(day)} y={values.y(100 * share)} small={points.length > 20} />
        ))}
      </g>
      {last && (
        <g data-side={side}>
          <text className="side-word" x={toX + 8} y={values.y(100 * last.share) - 2}>
            {`${(100 * last.share).toFixed(1)} %`}
          </text>
          <text x={toX + 8} y={values.y(100 * last.share) + 14}>
            {showVolume(last.ml)}
          </text>
        </g>
      )}
      <TapeAxis axis={axis} y={BOTTOM} fromX={FROM_X} toX={toX} />
      <path className={styles.today} d={`M${todayX} ${TOP}V${BOTTOM}`} />
    </StaticMarkup>
  );
}
