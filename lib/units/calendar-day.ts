import { addMonths as addCalendarMonths, format, parseISO } from 'date-fns';
import { type Reading, read, refused } from '../outcome';

/** A day of the calendar, `YYYY-MM-DD`: no clock and no time zone. */
export type CalendarDay = string & { readonly unit: 'day' };

const DAY_MS = 86_400_000;
const MONTHS = 'January February March April May June July August September October November December'.split(' ');
const WEEKDAYS = 'Sunday Monday Tuesday Wednesday Thursday Friday Saturday'.split(' ');

/**
 * A day as typed in ISO 8601 form, if the calendar has it.
 *
 * Refuses other spellings and days that do not exist. Source: ISO 8601 calendar dates, proleptic Gregorian.
 * Example: `2024-02-29` is read; `2023-02-29` and `29/02/2024` are refused.
 */
export function readDay(typed: string): Reading<CalendarDay> {
  const text = typed.trim().slice(0, 40);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return refused(`“${text}” is not a day. Type it as year-month-day, 2026-11-25.`);
  const time = Date.parse(`${text}T00:00:00Z`);
  if (Number.isNaN(time) || dayFromNumber(time / DAY_MS) !== text) return refused(`“${text}” is not in the calendar.`);
  return read(text as CalendarDay);
}

/** A day that is known to be one. Throws, as a bug, when it is not. Example: `2026-02-30` throws. */
export function calendarDay(text: string): CalendarDay {
  const reading = readDay(text);
  if (reading.kind !== 'read') throw new RangeError(`not a calendar day: ${text}`);
  return reading.value;
}

/** Days since 1970-01-01. Example: 1970-01-02 is 1. */
export function dayNumber(day: CalendarDay): number {
  return Date.UTC(Number(day.slice(0, 4)), Number(day.slice(5, 7)) - 1, Number(day.slice(8, 10))) / DAY_MS;
}

/** The day that is so many days after 1970-01-01; part days are dropped downward. Example: 0 is 1970-01-01. */
export function dayFromNumber(number: number): CalendarDay {
  return new Date(Math.floor(number) * DAY_MS).toISOString().slice(0, 10) as CalendarDay;
}

/**
 * Whole days from the earlier day to the later; negative when they are the other way round.
 *
 * Example: 28 Feb 2028 to 1 Mar 2028: 2.
 */
export function daysBetween(earlier: CalendarDay, later: CalendarDay): number {
  return dayNumber(later) - dayNumber(earlier);
}

/** The day so many days later. Example: 2024-02-28 plus 2 is 2024-03-01. */
export function addDays(day: CalendarDay, days: number): CalendarDay {
  return dayFromNumber(dayNumber(day) + days);
}

/** The same day of another month, or that month's last day. Example: 2026-01-31 plus 1 month is 2026-02-28. */
export function addMonths(day: CalendarDay, months: number): CalendarDay {
  return format(addCalendarMonths(parseISO(day), months), 'yyyy-MM-dd') as CalendarDay;
}

/** `25 Nov 2026` Example: 2026-03-03 → 3 Mar 2026. */
export function showDay(day: CalendarDay): string {
  return `${showDayOfYear(day)} ${day.slice(0, 4)}`;
}

/** `25 Nov` */
export function showDayOfYear(day: CalendarDay): string {
  return `${Number(day.slice(8, 10))} ${monthOf(day).slice(0, 3)}`;
}

/** `Wednesday 25 November` */
export function showWeekday(day: CalendarDay): string {
  return `${weekdayOf(day)} ${Number(day.slice(8, 10))} ${monthOf(day)}`;
}

/** `Wed 25 Nov` */
export function showShortWeekday(day: CalendarDay): string {
  return `${weekdayOf(day).slice(0, 3)} ${showDayOfYear(day)}`;
}

function monthOf(day: CalendarDay): string {
  return MONTHS[Number(day.slice(5, 7)) - 1] ?? '';
}

/** 1970-01-01 was a Thursday. */
function weekdayOf(day: CalendarDay): string {
  return WEEKDAYS[(((dayNumber(day) + 4) % 7) + 7) % 7] ?? '';
}

/** The Monday of a day's week. Example: of Sunday 6 December 2026: 30 November. */
export function mondayOf(day: CalendarDay): CalendarDay {
  // 1 January 1970 was a Thursday.
  return addDays(day, -((((dayNumber(day) + 3) % 7) + 7) % 7));
}
