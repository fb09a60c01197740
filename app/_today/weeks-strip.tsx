import { addDays, type CalendarDay, dayNumber, daysBetween, showDayOfYear } from '@/lib/units/calendar-day';
import type { ClinicWork } from './clinic-work';
import { KIND_WORDS, WorkIcon, WorkMark } from './work-mark';

const WIDTH = 1216;
const BACK = 16;
const AHEAD = 46;
const STACK = 17;
const MOST_STACKED = 5;

/** The weeks around today as a tape, a mark for each thing that is due; the past is hatched. */
export function WeeksStrip({ work, today }: { work: readonly ClinicWork[]; today: CalendarDay }) {
  const from = addDays(today, -BACK);
  const x = (day: CalendarDay): number => Math.round((8 + (daysBetween(from, day) / (BACK + AHEAD)) * (WIDTH - 16)) * 100) / 100;
  const stacks = new Map<CalendarDay, ClinicWork[]>();
  for (const one of work) {
    const days = daysBetween(today, one.item.due);
    if (days < -BACK || days > AHEAD) continue;
    const stack = stacks.get(one.item.due) ?? [];
    stack.push(one);
    stacks.set(one.item.due, stack);
  }
  const highest = Math.min(Math.max(2, ...[...stacks.values()].map((stack) => stack.length)), MOST_STACKED);
  const base = 14 + highest * STACK;
  const mondays: CalendarDay[] = [];
  for (let day = addDays(from, (11 - (dayNumber(from) % 7)) % 7); daysBetween(today, day) <= AHEAD; day = addDays(day, 7))
    mondays.push(day);
  const kinds = (['order', 'visit', 'first-fit', 'remeasure', 'refer'] as const).filter((kind) =>
    work.some((one) => one.item.kind === kind),
  );
  return (
    <div className="weeks">
      <div className="chart-scroll">
        <svg
          className="chart weeks-chart"
          viewBox={`0 0 ${WIDTH} ${base + 30}`}
          width={WIDTH}
          height={base + 30}
          role="img"
          aria-label={`What is due from ${showDayOfYear(from)} to ${showDayOfYear(addDays(today, AHEAD))}; the lists below hold the same.`}
        >
          <defs>
            <pattern id="weeks-past" width={6} height={6} patternUnits="userSpaceOnUse">
              <path className="past-hatch" d="M-1.5 1.5l3-3M0 6L6 0M4.5 7.5l3-3" />
            </pattern>
          </defs>
          <rect fill="url(#weeks-past)" x={0} y={6} width={x(today)} height={base - 6} />
          <path className="axis-line" d={`M0 ${base}H${WIDTH}`} />
          <path
            className="axis-ticks"
            d={Array.from({ length: BACK + AHEAD + 1 }, (_, day) => `M${x(addDays(from, day))} ${base}v4`).join('')}
          />
          {mondays.map((monday) => (
            <g key={monday}>
              <path className="axis-ticks" d={`M${x(monday)} ${base}v9`} />
              <text className="axis-text" x={x(monday) + 4} y={base + 22}>
                {showDayOfYear(monday)}
              </text>
            </g>
          ))}
          {[...stacks].flatMap(([day, stack]) =>
            stack
              .slice(0, MOST_STACKED)
              .map((one, level) => (
                <WorkMark
                  key={`${one.patient.patientId} ${one.item.title}`}
                  kind={one.item.kind}
                  x={x(day)}
                  y={base - 10 - level * STACK}
                />
              )),
          )}
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
