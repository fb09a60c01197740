import { Still } from '@/app/_shell/still';
import type { Side } from '@/lib/ladder/limb';
import type { DatedVolume } from '@/lib/trend/volume-over-time';
import { addDays, type CalendarDay, showDayOfYear } from '@/lib/units/calendar-day';
import { showVolume, thousands } from '@/lib/units/volume';
import { TapeAxis, ValueLines } from './chart-axes';
import { type PieceLine, PieceLines } from './piece-lines';
import { timeAxis } from './time-axis';
import { valueAxis } from './value-axis';

/** One limb's line: its volumes over time and, where the engine allows one, the trend carried on. */
export type VolumeLine = {
  readonly side: Side;
  readonly points: readonly DatedVolume[];
  readonly ahead: {
    readonly until: CalendarDay;
    readonly middleMl: number;
    readonly lowMl: number;
    readonly highMl: number;
  } | null;
};

export type ChartEvent = { readonly day: CalendarDay; readonly words: string };

const WIDTH = 620;
const FROM_X = 52;
const LABELS = 92;
const TOP = 26;
const PLOT = 190;
const PIECE_STEP = 22;

/** Volume of both limbs over true dates, drawn on the server: error bands, events, pieces on the same dates, today. */
export function VolumeChart({
  lines,
  events,
  pieces,
  today,
  said,
}: {
  lines: readonly VolumeLine[];
  events: readonly ChartEvent[];
  pieces: readonly PieceLine[];
  today: CalendarDay;
  said: string;
}) {
  const days = [
    ...lines.flatMap((line) => [...line.points.map((point) => point.day), ...(line.ahead ? [line.ahead.until] : [])]),
    ...events.map((event) => event.day),
    ...pieces.flatMap((piece) => piece.days),
  ];
  const first = days.reduce((one, other) => (other < one ? other : one), today);
  const last = days.reduce((one, other) => (other > one ? other : one), today);
  const toX = WIDTH - LABELS;
  const axis = timeAxis(addDays(first, -14), addDays(last, 10), FROM_X, toX);
  const bottom = TOP + PLOT;
  const lows = lines.flatMap((line) => [...line.points.map((point) => point.lowMl), ...(line.ahead ? [line.ahead.lowMl] : [])]);
  const highs = lines.flatMap((line) => [...line.points.map((point) => point.highMl), ...(line.ahead ? [line.ahead.highMl] : [])]);
  const values = valueAxis(Math.min(...lows), Math.max(...highs), bottom, TOP);
  const height = bottom + 44 + pieces.length * PIECE_STEP + 22;
  const todayX = axis.x(today);
  return (
    <Still as="svg" className="chart" viewBox={`0 0 ${WIDTH} ${height}`} width={WIDTH} height={height} role="img" aria-label={said}>
      <ForecastHatch />
      <ValueLines axis={values} fromX={FROM_X} toX={toX} show={thousands} />
      {events.map((event) => (
        <g key={`${event.day} ${event.words}`} className="event">
          <path className="event-line" d={`M${axis.x(event.day)} ${TOP}V${bottom}`} />
          <path className="event-wedge" d={`M${axis.x(event.day) - 5} ${TOP - 8}h10l-5 8Z`} />
          <text className="axis-text" x={axis.x(event.day) + 8} y={TOP - 1}>{`${event.words}, ${showDayOfYear(event.day)}`}</text>
        </g>
      ))}
      {lines.map((line) => (
        <OneLine key={line.side} line={line} x={axis.x} y={values.y} />
      ))}
      <LineLabels lines={lines} y={values.y} x={toX + 8} />
      <TapeAxis axis={axis} y={bottom} fromX={FROM_X} toX={toX} />
      <PieceLines pieces={pieces} axis={axis} top={bottom + 52} step={PIECE_STEP} today={today} toX={toX} />
      <path className="today" d={`M${todayX} ${TOP}V${height - 16}`} />
      <text className="today-word" x={todayX} y={height - 3} textAnchor="middle">
        today
      </text>
    </Still>
  );
}

function OneLine({ line, x, y }: { line: VolumeLine; x: (day: CalendarDay) => number; y: (value: number) => number }) {
  const upper = line.points.map((point) => `${x(point.day)} ${y(point.highMl)}`);
  const lower = line.points.map((point) => `${x(point.day)} ${y(point.lowMl)}`).reverse();
  const last = line.points.at(-1);
  return (
    <g className={`line ${line.side}`}>
      {line.points.length > 1 && <path className="error-band" d={`M${[...upper, ...lower].join('L')}Z`} />}
      {line.points.length === 1 && last && <path className="error-bar" d={`M${x(last.day)} ${y(last.lowMl)}V${y(last.highMl)}`} />}
      {line.ahead && last && (
        <g className="ahead">
          <path
            fill="url(#chart-ahead)"
            d={`M${x(last.day)} ${y(last.volumeMl)}L${x(line.ahead.until)} ${y(line.ahead.highMl)}V${y(line.ahead.lowMl)}Z`}
          />
          <path className="ahead-line" d={`M${x(last.day)} ${y(last.volumeMl)}L${x(line.ahead.until)} ${y(line.ahead.middleMl)}`} />
        </g>
      )}
      <path
        className="value-line"
        d={line.points.map((point, index) => `${index === 0 ? 'M' : 'L'}${x(point.day)} ${y(point.volumeMl)}`).join('')}
      />
      {line.points.map((point) => (
        <SideMark key={point.day} side={line.side} x={x(point.day)} y={y(point.volumeMl)} />
      ))}
    </g>
  );
}

/** Left is an open circle, right a filled triangle. */
export function SideMark({ side, x, y }: { side: Side; x: number; y: number }) {
  return side === 'left' ? <circle className="mark" cx={x} cy={y} r={4} /> : <path className="mark" d={`M${x} ${y - 5}l5 8.5h-10Z`} />;
}

/** Names and last values at the lines' ends, kept apart when the lines end close together. */
function LineLabels({ lines, y, x }: { lines: readonly VolumeLine[]; y: (value: number) => number; x: number }) {
  const ends = lines.flatMap((line) => {
    const last = line.points.at(-1);
    return last ? [{ side: line.side, value: last.volumeMl, at: y(last.volumeMl) }] : [];
  });
  ends.sort((one, other) => one.at - other.at);
  const [upper, lower] = ends;
  if (upper && lower && lower.at - upper.at < 34) {
    const middle = (upper.at + lower.at) / 2;
    upper.at = middle - 17;
    lower.at = middle + 17;
  }
  return (
    <>
      {ends.map((end) => (
        <g key={end.side} className={`line-label ${end.side}`}>
          <text className="side-word" x={x} y={end.at - 2}>
            {end.side === 'left' ? 'Left' : 'Right'}
          </text>
          <text x={x} y={end.at + 14}>
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
        <path className="ahead-hatch" d="M-1.5 1.5l3-3M0 6L6 0M4.5 7.5l3-3" />
      </pattern>
    </defs>
  );
}
