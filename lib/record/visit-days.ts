import { type CalendarDay, showDay } from '../units/calendar-day';

/** The days on which somebody can be measured: from birth to today. */
export type VisitDays = { readonly born: CalendarDay; readonly today: CalendarDay };

/**
 * Why a day cannot be the day of a visit, or undefined where it can: the one rule of days for the sheet, the server, files and commands.
 *
 * Shape: a day of the calendar, the day of birth and the day called today. Days of one form compare as texts.
 * Example: born 2020-03-01, a visit of 2019-12-24 lies before birth.
 */
export function refusedDay(day: CalendarDay, { born, today }: VisitDays): string | undefined {
  if (day > today) return `${showDay(day)} has not come yet.`;
  if (day < born) return `${showDay(day)} lies before the day of birth, ${showDay(born)}.`;
  return undefined;
}
