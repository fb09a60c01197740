import { addDays, type CalendarDay, dayNumber, showDay, showWeekday } from '../units/calendar-day';

/** Days on which the clinic is closed, first and last among them, and why. */
export type ClosedDays = { readonly from: CalendarDay; readonly until: CalendarDay; readonly why: string };

/** When a clinic works: weekdays (0 Sunday to 6 Saturday), days it is closed, and how many visits a day are usual; null for no limit. */
export type Diary = {
  readonly weekdays: readonly number[];
  readonly closed: readonly ClosedDays[];
  readonly capacity: number | null;
};

/** A clinic that has not said when it works: every day counts, and no day is full. */
export const EVERY_DAY: Diary = { weekdays: [0, 1, 2, 3, 4, 5, 6], closed: [], capacity: null };

export const WEEKDAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const;
/** Most spans of closed days, most days of one, most visits a day, longest reason. */
export const DIARY_BOUNDS = { spans: 60, days: 100, capacity: 500, why: 80 } as const;

/**
 * Why nobody works on a day, in words; undefined for a working day.
 *
 * Example: `The clinic does not work on Saturdays.`; `Closed 24 Dec 2026 to 1 Jan 2027: holidays.`
 */
export function closedOn({ weekdays, closed }: Diary, on: CalendarDay): string | undefined {
  const span = closed.find(({ from, until }) => from <= on && on <= until);
  if (span)
    return `Closed ${span.from === span.until ? showDay(span.from) : `${showDay(span.from)} to ${showDay(span.until)}`}: ${span.why}.`;
  const weekday = (((dayNumber(on) + 4) % 7) + 7) % 7;
  return weekdays.includes(weekday) ? undefined : `The clinic does not work on ${WEEKDAYS[weekday]}s.`;
}

/** Days that are gone at most to find one on which the clinic works. */
const FURTHEST = 130;

/**
 * The last working day up to a day; the day itself where it is one, or where none is found in 130 days.
 *
 * Never before `notBefore` while the day is not: what is due today on a closed day is due today. Example: Saturday 5 December 2026 with a week
 * of Monday to Friday: Friday 4 December.
 */
export function workingDayBefore(diary: Diary, on: CalendarDay, notBefore: CalendarDay): CalendarDay {
  for (let back = 0; back <= FURTHEST; back++) {
    const candidate = addDays(on, -back);
    if (candidate < notBefore && on >= notBefore) return on;
    if (!closedOn(diary, candidate)) return candidate;
  }
  return on;
}

/** The first working day from a day on; the day itself where none is found in 130 days. Example: Saturday 5 December 2026 with a week of Monday to Friday: Monday 7 December. */
export function workingDayFrom(diary: Diary, on: CalendarDay): CalendarDay {
  for (let ahead = 0; ahead <= FURTHEST; ahead++) {
    const candidate = addDays(on, ahead);
    if (!closedOn(diary, candidate)) return candidate;
  }
  return on;
}

/** What is said of a date that lies earlier because of a closed day. Example: `a working day before Saturday 5 December`. */
export function movedForClosed(from: CalendarDay): string {
  return `a working day before ${showWeekday(from)}`;
}
