import chartStyles from '@/app/_chart/chart.module.css';
import { StaticMarkup } from '@/app/_markup/static-markup';
import type { WorkDay } from '@/db/worklist/work-counts';
import type { WorkKind } from '@/lib/schedule/worklist';
import { addDays, type CalendarDay, dayNumber, daysBetween, showDayOfYear } from '@/lib/units/calendar-day';
import { STRIP } from './load-today';
import styles from './today.module.css';
import { KIND_WORDS, WorkIcon, WorkMarks } from './work-mark';

const WIDTH = 1216;
const STACK = 17;
/** Marks that one day can show; a clinic with busier days is drawn as columns. */
const MOST_STACKED = 5;
const KINDS = ['order', 'visit', 'first-fit', 'remeasure', 'call', 'delivery', 'refer'] as const;

/** The weeks around today as a tape, a mark for each thing that is due, or a column a day where they are too many; the past is hatched. */
export function WeeksStrip({ days, today }: { days: readonly WorkDay[]; today: CalendarDay }) {
  const from = addDays(today, -STRIP.back);
  const span = STRIP.back + STRIP.ahead;
  const x = (day: CalendarDay): number => Math.round(8 + (daysBetween(from, day) / span) * (WIDTH - 16));
  const totals = new Map<CalendarDay, number>();
  for (const { due, lines } of days) totals.set(due, (totals.get(due) ?? 0) + lines);
  const most = Math.max(0, ...totals.values());
  const crowded = most > MOST_STACKED;
  const base = 14 + Math.min(Math.max(2, most), MOST_STACKED) * STACK;
  const mondays: CalendarDay[] = [];
  for (let day = addDays(from, (11 - (dayNumber(from) % 7)) % 7); daysBetween(today, day) <= STRIP.ahead; day = addDays(day, 7))
    mondays.push(day);
  const columns = [...totals].map(([day, lines]) => `M${x(day)} ${base}v-${Math.round((lines / most) * (base - 20)) + 1}`).join('');
  const marks = crowded ? referrals(days) : stacked(days);
  const kinds = KINDS.filter((kind) => marks.has(kind));
  return (
    <div className={styles.weeks}>
      <div className="chart-scroll">
        <StaticMarkup
          as="svg"
          className={`${chartStyles.chart} ${styles.weeksChart}`}
          viewBox={`0 0 ${WIDTH} ${base + 30}`}
          width={WIDTH}
          height={base + 30}
          role="img"
          aria-label={`What is due from ${showDayOfYear(from)} to ${showDayOfYear(addDays(today, STRIP.ahead))}; the lists below hold the same.`}
        >
          <defs>
            <pattern id="weeks-past" width={6} height={6} patternUnits="userSpaceOnUse">
              <path className={styles.pastHatch} d="M-1.5 1.5l3-3M0 6L6 0M4.5 7.5l3-3" />
            </pattern>
          </defs>
          <rect fill="url(#weeks-past)" x={0} y={6} width={x(today)} height={base - 6} />
          {crowded && <path className={styles.dayColumns} d={columns} />}
          <path className={chartStyles.axisLine} d={`M0 ${base}H${WIDTH}`} />
          <path
            className={chartStyles.axisTicks}
            d={Array.from({ length: span + 1 }, (_, day) => `M${x(addDays(from, day))} ${base}v4`).join('')}
          />
          <path className={chartStyles.axisTicks} d={mondays.map((monday) => `M${x(monday)} ${base}v9`).join('')} />
          {mondays.map((monday) => (
            <text key={monday} className={chartStyles.axisText} x={x(monday) + 4} y={base + 22}>
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
          <path className={chartStyles.today} d={`M${x(today)} 2V${base + 9}`} />
          <text className={chartStyles.todayWord} x={x(today) - 5} y={12} textAnchor="end">
            today
          </text>
        </StaticMarkup>
      </div>
      <p className={styles.weeksKey}>
        {crowded && <span>{`A column a day; the highest is ${most} things due.`}</span>}
        {kinds.map((kind) => (
          <span key={kind}>
            <WorkIcon kind={kind} /> {KIND_WORDS[kind]}
          </span>
        ))}
      </p>
    </div>
  );
}

type Marks = Map<WorkKind, { readonly due: CalendarDay; readonly level: number }[]>;

/** A mark for each line on its day, one above the other. */
function stacked(days: readonly WorkDay[]): Marks {
  const marks: Marks = new Map();
  const heights = new Map<CalendarDay, number>();
  for (const { kind, due, lines } of days) {
    const level = heights.get(due) ?? 0;
    heights.set(due, level + lines);
    const added = Array.from({ length: lines }, (_, above) => ({ due, level: level + above }));
    marks.set(kind, [...(marks.get(kind) ?? []), ...added]);
  }
  return marks;
}

/** One mark for each day with a referral: among columns too, nobody may overlook it. */
function referrals(days: readonly WorkDay[]): Marks {
  const found = days.filter((day) => day.kind === 'refer').map(({ due }) => ({ due, level: 0 }));
  return found.length > 0 ? new Map([['refer', found]]) : new Map();
}
