import { type CalendarDay, calendarDay } from '@/lib/units/calendar-day';

/** The day it is now in a time zone. The only place where a screen asks the clock for the day. */
export function todayIn(timeZone: string, now = new Date()): CalendarDay {
  const parts = new Intl.DateTimeFormat('en', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' }).formatToParts(now);
  const part = (type: string) => parts.find((one) => one.type === type)?.value ?? '';
  return calendarDay(`${part('year')}-${part('month')}-${part('day')}`);
}

/** The clock time it is now in a time zone, `HH:MM`. */
export function timeIn(timeZone: string, now = new Date()): string {
  return new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(now);
}
