import type { ShownPhase } from '@/lib/summary/phase-words';
import type { CalendarDay } from '@/lib/units/calendar-day';
import styles from './chart.module.css';
import type { TimeAxis } from './time-axis';

/** A phase on the dates of a chart: until its end, or today and on, dotted. */
export type ChartPhase = {
  readonly number: number;
  readonly words: string;
  readonly from: CalendarDay;
  readonly end: CalendarDay | null;
  readonly baseline: CalendarDay | null;
  readonly current: boolean;
};

/** A phase of a course as a chart draws it. */
export function asDrawn({ number, words, phase, end, baseline, current }: ShownPhase): ChartPhase {
  return { number, words, from: phase.from, end, baseline, current };
}

/** Height of the band, with the room below it. */
export const PHASE_BAND = 40;
const BAND = 26;
/** About the width of a character of the band's words. */
const CHARACTER = 6.4;

/**
 * The phases as a band over a chart: past ones sunken, the current one framed, what comes dotted; bounds run through the plot, a wedge at
 * each baseline. Words that do not fit become the number of the list below. Under another chart the bounds alone.
 */
export function PhaseBand({
  phases,
  axis,
  today,
  top,
  bottom,
  toX,
  boundsOnly = false,
}: {
  phases: readonly ChartPhase[];
  axis: TimeAxis;
  today: CalendarDay;
  top: number;
  bottom: number;
  toX: number;
  boundsOnly?: boolean;
}) {
  if (boundsOnly) return <path className={styles.phaseBound} d={phases.map(({ from }) => `M${axis.x(from)} ${top}V${bottom}`).join('')} />;
  return (
    <g>
      {phases.map(({ number, words, from, end, baseline, current }) => {
        const last = end !== null && end < today ? end : today;
        const [x1, x2] = [axis.x(from), Math.max(axis.x(last), axis.x(from) + 2)];
        const fits = words.length * CHARACTER < x2 - x1 - 8;
        const word = fits ? words : x2 - x1 > 12 ? String(number) : '';
        return (
          <g key={number}>
            <path className={styles.phaseBound} d={`M${x1} ${top}V${bottom}`} />
            <rect className={current ? styles.phaseCurrent : styles.phasePast} x={x1} y={top} width={x2 - x1} height={BAND} />
            {word && (
              <text className={styles.axisText} x={(x1 + x2) / 2} y={top + BAND / 2 + 4.5} textAnchor="middle">
                {word}
              </text>
            )}
            {current && x2 < toX && <path className={styles.phaseAhead} d={`M${x2} ${top + BAND / 2}H${toX}`} />}
            {baseline && <path className={styles.phaseBaseline} d={`M${axis.x(baseline) - 4} ${top + BAND + 2}h8l-4 7Z`} />}
          </g>
        );
      })}
    </g>
  );
}
