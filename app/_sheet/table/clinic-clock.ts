import { createContext } from 'react';
import { type CalendarDay, showDayOfYear } from '@/lib/units/calendar-day';

/** The clinic's clock: the zone its days are counted in, and the day it is there. The same on the server and in any browser. */
export type ClinicClock = { readonly timeZone: string; readonly today: CalendarDay };

/** The clock of the sheet that is open. */
export const ClinicClockOf = createContext<ClinicClock>({ timeZone: 'UTC', today: '1970-01-01' as CalendarDay });

/** When something was done on the clinic's clock: the hour for today, else the day; what is there when it is no instant. */
export function whenOnClock(at: string, { timeZone, today }: ClinicClock): string {
  const moment = new Date(at);
  if (!/T/.test(at) || Number.isNaN(moment.getTime())) return at;
  const day = new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short' }).format(moment) as CalendarDay;
  return day === today
    ? new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit' }).format(moment)
    : showDayOfYear(day);
}
