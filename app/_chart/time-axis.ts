import { addDays, type CalendarDay, dayFromNumber, dayNumber } from '@/lib/units/calendar-day';

/** A true time axis: x of a day, week ticks, months with their names, years. */
export type TimeAxis = {
  readonly x: (day: CalendarDay) => number;
  readonly weeks: readonly number[];
  readonly months: readonly {
    readonly x: number;
    readonly middle: number;
    readonly name: string | null;
    readonly year: string | null;
  }[];
};

const MONTH_NAMES = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const ROOM_FOR_NAME_PX = 26;
/** Months nearer than this carry a tick each quarter only. */
const LEAST_TICK_PX = 5;

/** The axis from one day to another over a stretch of pixels. Month names are thinned to what fits; the year stands under each January and the first. */
export function timeAxis(from: CalendarDay, to: CalendarDay, fromX: number, toX: number): TimeAxis {
  const first = dayNumber(from);
  const span = Math.max(dayNumber(to) - first, 1);
  const at = (number: number): number => Math.round((fromX + ((number - first) / span) * (toX - fromX)) * 100) / 100;
  const weeks: number[] = [];
  if (span <= 800) for (let day = first + ((11 - (first % 7)) % 7); day <= first + span; day += 7) weeks.push(at(day));
  const starts: CalendarDay[] = [];
  for (let day = monthStart(from); day <= to; day = monthStart(addDays(day, 32))) if (day >= from) starts.push(day);
  const perMonth = (30.44 / span) * (toX - fromX);
  const every = Math.max(1, Math.ceil(ROOM_FOR_NAME_PX / perMonth));
  const nice = [1, 2, 3, 6, 12].find((one) => one >= every) ?? 12;
  let lastYearX = Number.NEGATIVE_INFINITY;
  const months = starts.map((start, index) => {
    const month = Number(start.slice(5, 7)) - 1;
    const x = at(dayNumber(start));
    const januaryFollows = month !== 0 && (12 - month) * perMonth < ROOM_FOR_NAME_PX + 6;
    const shown = (month === 0 || (index === 0 && !januaryFollows)) && x - lastYearX > ROOM_FOR_NAME_PX + 6;
    if (shown) lastYearX = x;
    const name = month % nice === 0 ? (MONTH_NAMES[month] ?? null) : null;
    return { x, middle: at(dayNumber(start) + 15), name, year: shown ? start.slice(0, 4) : null, month };
  });
  const ticked = perMonth < LEAST_TICK_PX ? months.filter(({ month, year }) => month % 3 === 0 || year) : months;
  return { x: (day) => at(dayNumber(day)), weeks, months: ticked.map(({ month: _, ...rest }) => rest) };
}

function monthStart(day: CalendarDay): CalendarDay {
  return dayFromNumber(dayNumber(day) - Number(day.slice(8, 10)) + 1);
}
