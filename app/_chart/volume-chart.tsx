import { StaticMarkup } from '@/app/_markup/static-markup';
import type { Side } from '@/lib/ladder/limb';
import type { DatedVolume } from '@/lib/trend/volume-over-time';
import { addDays, type CalendarDay, showDayOfYear } from '@/lib/units/calendar-day';
import { showVolume, thousands } from '@/lib/units/volume';
import styles from './chart.module.css';
import { TapeAxis, ValueLines } from './chart-axes';
import { type EventLabel, eventLabels } from './event-labels';
import { keepApart } from './keep-apart';
import { type ChartPhase, PHASE_BAND, PhaseBand } from './phase-band';
import { type PieceLine, PieceLines } from './piece-lines';
import { SideMark } from './side-mark';
import { timeAxis } from './time-axis';
import { valueAxis } from './value-axis';

/** One limb's line: its volumes over time and, where the engine allows one, the trend carried on. */
export type VolumeLine = {
  readonly side: Side;
  /** As measured: the marks. */
  readonly points: readonly DatedVolume[];
  /** As all visits together have it: the line and its band. Empty where the model has no say, and the marks are joined. */
  readonly course: readonly DatedVolume[];
  /** A change that is said today: between which visits it came, and how sure that is. */
  readonly step: { readonly before: CalendarDay; readonly since: CalendarDay; readonly words: string } | null;
  readonly ahead: {
    readonly until: CalendarDay;
    readonly middleMl: number;
    readonly lowMl: number;
    readonly highMl: number;
  } | null;
};

export type ChartEvent = { readonly day: CalendarDay; readonly words: string };

const WIDTH = 560;
const FROM_X = 52;
const LABELS = 92;
/** Above the plot: a row for each line of events' words. */
const EVENT_ROW = 16;
const LEAST_TOP = 14;
const PLOT = 190;
const PIECE_STEP = 22;
/** From so many visits on the marks are small, so that they do not run into each other. */
const CROWDED = 20;

export type VolumeParts = {
  readonly lines: readonly VolumeLine[];
  readonly events: readonly ChartEvent[];
  readonly pieces: readonly PieceLine[];
  readonly phases?: readonly ChartPhase[];
  readonly today: CalendarDay;
  /** Drawn so many px wide. */
  readonly width?: number;
};

/** Where everything of a volume chart stands: the scales of the drawing and of the readings over it. */
export function volumeScales({ lines, events, pieces, phases = [], today, width = WIDTH }: VolumeParts) {
  const toX = width - LABELS;
  const { from, to } = chartDates({ lines, events, pieces, phases, today });
  const axis = timeAxis(from, to, FROM_X, toX);
  const dated = events.map((event) => ({ ...event, x: axis.x(event.day) }));
  const labels = eventLabels(
    dated.map(({ x, words, day }) => ({ x, words: `${words}, ${showDayOfYear(day)}` })),
    FROM_X,
    toX,
  );
  const rows = Math.max(0, ...labels.map((label) => label.row + 1));
  const band = phases.length > 0 ? PHASE_BAND : 0;
  const top = band + LEAST_TOP + rows * EVENT_ROW;
  const bottom = top + PLOT;
  const lows = lines.flatMap((line) => [...drawnOf(line).map((point) => point.lowMl), ...(line.ahead ? [line.ahead.lowMl] : [])]);
  const highs = lines.flatMap((line) => [...drawnOf(line).map((point) => point.highMl), ...(line.ahead ? [line.ahead.highMl] : [])]);
  const marks = lines.flatMap((line) => line.points.map((point) => point.volumeMl));
  const values = valueAxis(Math.min(...lows, ...marks), Math.max(...highs, ...marks), bottom, top);
  const height = bottom + 44 + pieces.length * PIECE_STEP + 22;
  return { width, height, fromX: FROM_X, toX, top, bottom, from, to, axis, values, dated, labels };
}

/** Volume of both limbs over true dates, drawn on the server: error bands, phases, events, pieces on the same dates, today. */
export function VolumeChart({ said, ...parts }: VolumeParts & { said: string }) {
  const { lines, pieces, phases = [], today } = parts;
  const { width, height, toX, top, bottom, axis, values, dated, labels } = volumeScales(parts);
  const todayX = axis.x(today);
  return (
    <StaticMarkup
      as="svg"
      className={styles.chart}
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={said}
    >
      <ForecastHatch />
      <ValueLines axis={values} fromX={FROM_X} toX={toX} show={thousands} />
      {phases.length > 0 && <PhaseBand phases={phases} axis={axis} today={today} top={2} bottom={bottom} toX={toX} />}
      <Events events={dated.map(({ x }, index) => ({ x, label: labels[index] as EventLabel }))} top={top} bottom={bottom} />
      {lines.map(
        ({ side, step }) => step && <Step key={side} step={step} x={axis.x} top={top} bottom={bottom} middle={(FROM_X + toX) / 2} />,
      )}
      {lines.map((line) => (
        <OneLine key={line.side} line={line} x={axis.x} y={values.y} />
      ))}
      <LineLabels lines={lines} y={values.y} x={toX + 8} />
      <TapeAxis axis={axis} y={bottom} fromX={FROM_X} toX={toX} />
      <PieceLines pieces={pieces} axis={axis} top={bottom + 52} step={PIECE_STEP} today={today} toX={toX} />
      <path className={styles.today} d={`M${todayX} ${top}V${height - 16}`} />
      <text className={styles.todayWord} x={todayX} y={height - 3} textAnchor="middle">
        today
      </text>
    </StaticMarkup>
  );
}

type Dated = {
  readonly lines: readonly VolumeLine[];
  readonly events: readonly ChartEvent[];
  readonly pieces: readonly PieceLine[];
  readonly phases: readonly ChartPhase[];
  readonly today: CalendarDay;
};

/** The dates that a chart of the course spans: everything drawn and today, with a little room. */
export function chartDates({ lines, events, pieces, phases, today }: Dated): { readonly from: CalendarDay; readonly to: CalendarDay } {
  const days = [
    ...lines.flatMap((line) => [...line.points.map((point) => point.day), ...(line.ahead ? [line.ahead.until] : [])]),
    ...events.map((event) => event.day),
    ...pieces.flatMap((piece) => piece.days),
    ...phases.map((phase) => phase.from),
  ];
  const first = days.reduce((one, other) => (other < one ? other : one), today);
  const last = days.reduce((one, other) => (other > one ? other : one), today);
  return { from: addDays(first, -14), to: addDays(last, 10) };
}

/** Dotted lines with a wedge, then all words over them. */
function Events({ events, top, bottom }: { events: readonly { x: number; label: EventLabel }[]; top: number; bottom: number }) {
  const wordY = (label: EventLabel): number => top - 9 - label.row * EVENT_ROW;
  return (
    <g className={styles.event}>
      {events.map(({ x, label }) => (
        <g key={`${x} ${label.row}`}>
          <path className={styles.eventLine} d={`M${x} ${wordY(label)}V${bottom}`} />
          <path className={styles.eventWedge} d={`M${x - 5} ${wordY(label) - 8}h10l-5 8Z`} />
        </g>
      ))}
      {events.map(({ x, label }) => (
        <text
          key={`${x} ${label.row}`}
          className={styles.axisText}
          x={label.anchor === 'end' ? x - 8 : x + 8}
          y={wordY(label)}
          textAnchor={label.anchor}
        >
          {label.words}
        </text>
      ))}
    </g>
  );
}

function drawnOf({ course, points }: VolumeLine): readonly DatedVolume[] {
  return course.length > 0 ? course : points;
}

type StepProps = { step: NonNullable<VolumeLine['step']>; x: (day: CalendarDay) => number; top: number; bottom: number; middle: number };

/** The interval in which a change came, with a bracket over it: it lies somewhere between two visits, never on a day. */
function Step({ step, x, top, bottom, middle }: StepProps) {
  const [from, to] = [x(step.before), x(step.since)];
  const atEnd = from < middle;
  return (
    <g>
      <path className={styles.stepWash} d={`M${from} ${top}H${to}V${bottom}H${from}Z`} />
      <path className={styles.stepBracket} d={`M${from} ${top + 6}V${top}H${to}V${top + 6}`} />
      <text
        className={`${styles.axisText} ${styles.stepWord}`}
        x={atEnd ? to + 6 : from - 6}
        y={top + 9}
        textAnchor={atEnd ? 'start' : 'end'}
      >
        {step.words}
      </text>
    </g>
  );
}

function OneLine({ line, x, y }: { line: VolumeLine; x: (day: CalendarDay) => number; y: (value: number) => number }) {
  const drawn = drawnOf(line);
  const upper = drawn.map((point) => `${x(point.day)} ${y(point.highMl)}`);
  const lower = drawn.map((point) => `${x(point.day)} ${y(point.lowMl)}`).reverse();
  const last = line.points.at(-1);
  return (
    <g data-side={line.side}>
      {drawn.length > 1 && <path className={styles.errorBand} d={`M${[...upper, ...lower].join('L')}Z`} />}
      {line.points.length === 1 && last && <path className={styles.errorBar} d={`M${x(last.day)} ${y(last.lowMl)}V${y(last.highMl)}`} />}
      {line.ahead && last && (
        <g>
          <path
            fill="url(#chart-ahead)"
            d={`M${x(last.day)} ${y(last.volumeMl)}L${x(line.ahead.until)} ${y(line.ahead.highMl)}V${y(line.ahead.lowMl)}Z`}
          />
          <path className={styles.aheadLine} d={`M${x(last.day)} ${y(last.volumeMl)}L${x(line.ahead.until)} ${y(line.ahead.middleMl)}`} />
        </g>
      )}
      <path
        className={styles.valueLine}
        d={drawn.map((point, index) => `${index === 0 ? 'M' : 'L'}${x(point.day)} ${y(point.volumeMl)}`).join('')}
      />
      {line.points.map((point) => (
        <SideMark key={point.day} side={line.side} x={x(point.day)} y={y(point.volumeMl)} small={line.points.length > CROWDED} />
      ))}
    </g>
  );
}

/** Names and last values at the lines' ends, kept apart when the lines end close together. */
function LineLabels({ lines, y, x }: { lines: readonly VolumeLine[]; y: (value: number) => number; x: number }) {
  const ends = lines.flatMap((line) => {
    const last = line.points.at(-1);
    return last ? [{ side: line.side, value: last.volumeMl, at: y(last.volumeMl) }] : [];
  });
  ends.sort((one, other) => one.at - other.at);
  const apart = keepApart(
    ends.map((end) => end.at),
    34,
  );
  return (
    <>
      {ends.map((end, index) => (
        <g key={end.side} data-side={end.side}>
          <text className="side-word" x={x} y={(apart[index] as number) - 2}>
            {end.side === 'left' ? 'Left' : 'Right'}
          </text>
          <text x={x} y={(apart[index] as number) + 14}>
            {showVolume(end.value)}
          </text>
        </g>
      ))}
    </>
  );
}

/** The violet hatch of everything that is a guess about later. */
export function ForecastHatch() {
  return (
    <defs>
      <pattern id="chart-ahead" width={6} height={6} patternUnits="userSpaceOnUse">
        <path className={styles.aheadHatch} d="M-1.5 1.5l3-3M0 6L6 0M4.5 7.5l3-3" />
      </pattern>
    </defs>
  );
}
