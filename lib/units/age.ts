import { differenceInMonths, differenceInYears, parseISO } from 'date-fns';
import { type CalendarDay, daysBetween } from './calendar-day';

/** Mean days in a month of growth tables: 365.25 / 12. Source: WHO Child Growth Standards 2006, methods and development. */
export const DAYS_IN_MONTH = 30.4375;

/** Completed whole years on a day, as people count birthdays. Example: born 2020-01-01, on 2022-07-02: 2. */
export function ageInYears(born: CalendarDay, on: CalendarDay): number {
  return differenceInYears(parseISO(on), parseISO(born));
}

/** `10 years 9 months`, `14 months`, `5 weeks`: an age the way people say it. */
export function showAge(born: CalendarDay, on: CalendarDay): string {
  const days = daysBetween(born, on);
  if (days < 92) return `${Math.floor(days / 7)} weeks`;
  const months = differenceInMonths(parseISO(on), parseISO(born));
  if (months < 24) return `${months} months`;
  const years = Math.floor(months / 12);
  const rest = months % 12;
  return years >= 18 || rest === 0 ? `${years} years` : `${years} years ${rest} month${rest === 1 ? '' : 's'}`;
}
