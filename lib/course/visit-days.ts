import { type CalendarDay, showDay } from '../units/calendar-day';
import { endedBefore, type Phase } from './phases';

/** The days on which somebody can be measured: from birth to today, and not after the course of care ended. */
export type VisitDays = { readonly born: CalendarDay; readonly today: CalendarDay; readonly phases?: readonly Phase[] };

/**
 * Why a day cannot be the day of a visit, or undefined where it can: the one rule of days for the sheet, the server, files and commands.
 *
 * Shape: a day of the calendar, the day of birth, the day called today and the phases. Days of one form compare as texts.
 * Example: born 2020-03-01, a visit of 2019-12-24 lies before birth.
 */
export function refusedDay(day: CalendarDay, { born, today, phases = [] }: VisitDays): string | undefined {
  if (day > today) return `${showDay(day)} has not come yet.`;
  if (day < born) return `${showDay(day)} lies before the day of birth, ${showDay(born)}.`;
  return endedBefore(phases, day);
}
