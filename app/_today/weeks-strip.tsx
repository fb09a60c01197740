import type { WorkDay } from '@/db/work-counts';
import type { WorkKind } from '@/lib/schedule/worklist';
import { addDays, type CalendarDay, dayNumber, daysBetween, showDayOfYear } from '@/lib/units/calendar-day';
import { STRIP } from './load-today';
import { KIND_WORDS, WorkIcon, WorkMarks } from './work-mark';

const WIDTH = 1216;
const STACK = 17;
const MOST_STACKED = 5;
const KINDS = ['order', 'visit', 'first-fit', 'remeasure', 'delivery', 'refer'] as const;

/** The weeks around today as a tape, a mark for each thing that is due, a number where they are too many; the past is hatched. */
export function WeeksStrip({ days, today }: { days: readonly WorkDay[]; today: CalendarDay }) {
  const from = addDays(today, -STRIP.back);
  const span = STRIP.back + STRIP.ahead;
  const x = (day: CalendarDay): number => Math.round((8 + (daysBetween(from, day) / span) * (WIDTH - 16)) * 100) / 100;
  const { marks, heights, totals } = stacked(days);
  const highest = Math.min(Math.max(2, ...heights.values()), MOST_STACKED);
  const base = 24 + highest * STACK;
  const mondays: CalendarDay[] = [];
  for (let day = addDays(from, (11 - (dayNumber(from) % 7)) % 7); daysBetween(today, day) <= STRIP.ahead; day = addDays(day, 7))
    mondays.push(day);
  const kinds = KINDS.filter((kind) => marks.has(kind));
  const crowded = [...totals].filter(([, lines]) => lines > MOST_STACKED);
  return (
    <div className="weeks">
      <div className="chart-scroll">
        <svg
          className="chart weeks-chart"
          viewBox={`0 0 ${WIDTH} ${base + 30}`}
          width={WIDTH}
          height={base + 30}
          role="img"
          aria-label={`What is due from ${showDayOfYear(from)} to ${showDayOfYear(addDays(today, STRIP.ahead))}; the lists below hold the same.`}
        >
          <defs>
            <pattern id="weeks-past" width={6} height={6} patternUnits="userSpaceOnUse">
              <path className="past-hatch" d="M-1.5 1.5l3-3M0 6L6 0M4.5 7.5l3-3" />
            </pattern>
          </defs>
          <rect fill="url(#weeks-past)" x={0} y={6} width={x(today)} height={base - 6} />
          <path className="axis-line" d={`M0 ${base}H${WIDTH}`} />
          <path className="axis-ticks" d={Array.from({ length: span + 1 }, (_, day) => `M${x(addDays(from, day))} ${base}v4`).join('')} />
          <path className="axis-ticks" d={mondays.map((monday) => `M${x(monday)} ${base}v9`).join('')} />
          {mondays.map((monday) => (
            <text key={monday} className="axis-text" x={x(monday) + 4} y={base + 22}>
              {showDayOfYear(monday)}
            </text>
          ))}
          {kinds.map((kind) => (
            <WorkMarks
              key={kind}
              kind={kind}
              at={(marks.get(kind) ?? []).map(({ due, level }) => [x(due), base - 10 - level * STACK] as const)}
            />
          ))}
          {crowded.map(([day, lines]) => (
            <text key={day} className="axis-text" x={x(day)} y={base - 4 - MOST_STACKED * STACK} textAnchor="middle">
              {lines}
            </text>
          ))}
          <path className="today" d={`M${x(today)} 2V${base + 9}`} />
          <text className="today-word" x={x(today) - 5} y={12} textAnchor="end">
            today
          </text>
        </svg>
      </div>
      <p className="weeks-key">
        {kinds.map((kind) => (
          <span key={kind}>
            <WorkIcon kind={kind} /> {KIND_WORDS[kind]}
          </span>
        ))}
      </p>
    </div>
  );
}

type Marked = { readonly due: CalendarDay; readonly level: number };

/** Marks on their days, at most five a day, one of each kind before a second of any. */
function stacked(days: readonly WorkDay[]) {
  const marks = new Map<WorkKind, Marked[]>();
  const heights = new Map<CalendarDay, number>();
  const totals = new Map<CalendarDay, number>();
  for (const { due, lines } of days) totals.set(due, (totals.get(due) ?? 0) + lines);
  for (let round = 0; round < MOST_STACKED; round++) {
    for (const { kind, due, lines } of days) {
      const level = heights.get(due) ?? 0;
      if (round >= lines || level >= MOST_STACKED) continue;
      heights.set(due, level + 1);
      marks.set(kind, [...(marks.get(kind) ?? []), { due, level }]);
    }
  }
  return { marks, heights, totals };
}
