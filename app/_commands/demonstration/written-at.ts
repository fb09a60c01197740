import type { CalendarDay } from '@/lib/units/calendar-day';

/** When something of a day was written down in the demonstration: that afternoon, but never later than now. */
export function writtenAt(day: CalendarDay | undefined, time = '15:00'): Date {
  return new Date(Math.min(Date.parse(`${day ?? '2026-01-01'}T${time}:00Z`), Date.now()));
}
