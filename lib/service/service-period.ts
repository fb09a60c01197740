import { type CalendarDay, calendarDay } from '../units/calendar-day';
import { type Month, monthOf } from './service-counts';

/** What the figures are of: the calendar year up to today, the last twelve calendar months with the present one, or everything. */
export const SERVICE_PERIODS = ['year', 'twelve-months', 'all'] as const;
export type PeriodChoice = (typeof SERVICE_PERIODS)[number];

/** Whole calendar months, so that a month is never cut; `from` is null where the record itself begins the period. */
export type ServicePeriod = { readonly choice: PeriodChoice; readonly from: Month | null; readonly to: Month };

/** The period of a choice on a day. Example: twelve-months on 2026-11-30 is 2025-12 to 2026-11. */
export function servicePeriod(choice: PeriodChoice, today: CalendarDay): ServicePeriod {
  const to = monthOf(today);
  const [year, month] = [Number(to.slice(0, 4)), Number(to.slice(5))];
  if (choice === 'all') return { choice, from: null, to };
  if (choice === 'year') return { choice, from: `${to.slice(0, 4)}-01` as Month, to };
  const back = year * 12 + month - 12;
  const from = `${String(Math.floor(back / 12)).padStart(4, '0')}-${String((back % 12) + 1).padStart(2, '0')}` as Month;
  return { choice, from, to };
}

/** Whether a month lies in a period. */
export function isInPeriod(month: Month, { from, to }: ServicePeriod): boolean {
  return (from === null || month >= from) && month <= to;
}

/** First day of a period (null: none) and the first day after it. Example: 2025-12 to 2026-11 is 2025-12-01 and 2026-12-01. */
export function daysOfPeriod({ from, to }: ServicePeriod): { readonly from: CalendarDay | null; readonly before: CalendarDay } {
  const [year, month] = [Number(to.slice(0, 4)), Number(to.slice(5))];
  const next = month === 12 ? `${String(year + 1).padStart(4, '0')}-01` : `${String(year)}-${String(month + 1).padStart(2, '0')}`;
  return { from: from === null ? null : calendarDay(`${from}-01`), before: calendarDay(`${next}-01`) };
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** A month as people read it: Mar 2026. */
export function showMonth(month: Month): string {
  return `${MONTHS[Number(month.slice(5)) - 1]} ${month.slice(0, 4)}`;
}
