import { type CalendarDay, calendarDay } from '@/lib/units/calendar-day';

/** The day it is now in a time zone. The only place where a screen asks the clock for the day. */
export function todayIn(timeZone: string, now = new Date()): CalendarDay {
  const parts = new Intl.DateTimeFormat('en', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' }).formatToParts(now);
  const part = (type: string) => parts.find((one) => one.type === type)?.value ?? '';
  return calendarDay(`${part('year')}-${part('month')}-${part('day')}`);
}
