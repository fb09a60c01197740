import type { CalendarDay } from '../units/calendar-day';
import { addDays } from '../units/calendar-day';
import { instantOf } from '../units/clock-instant';
import type { CalendarEntry } from './calendar-file';
import type { DateKind } from './scheduled-date';

/** A stored date of a patient's schedule, with the reference the clinic knows the patient by. */
export type StoredDay = {
  readonly id: string;
  readonly patientId: string;
  readonly reference: string;
  readonly kind: DateKind;
  readonly day: CalendarDay;
  /** Clock time of a booked visit; left out or null for a whole day. */
  readonly time?: string | null;
  readonly state: 'open' | 'done' | 'cancelled';
  readonly sequence: number;
  readonly changedAt: Date;
};

const WORDS: Readonly<Record<DateKind, string>> = {
  visit: 'Visit due',
  remeasure: 'Measure again',
  order: 'Order by',
  delivery: 'Delivery expected',
  'first-fit': 'First fit to check',
  call: 'Early call',
  'end-of-life': 'Piece at the end of its life',
  ask: 'Ask again',
  referral: 'Referral ends soon',
  booking: 'Visit booked',
  'not-said': 'Booked visit to be noted',
  missed: 'Call: missed visit',
  'call-back': 'Call back: asked by the family',
  reply: 'Look at a reply of the family',
};

/** Days for which a date that is done or fell away stays in the file as cancelled, so that calendars take it out. Common practice. */
export const CANCELLED_DAYS = 90;

/**
 * Stored dates as calendar entries: kind and reference, no name, no diagnosis.
 *
 * A date that is done or fell away is cancelled, for ninety days; after that it is left out.
 * Each leads to its patient's page, which asks for a sign-in. Shape: stored dates, the host the ids belong to, today, the address of the program,
 * when the clinic wants to be reminded, and the zone of its clock. Example: `Order by, HL-0147` with the id `<stored id>@clinic`.
 */
export function calendarEntries(
  dates: readonly StoredDay[],
  host: string,
  today: CalendarDay,
  { address, alarmDays, timeZone = 'UTC' }: { readonly address: string; readonly alarmDays: number | null; readonly timeZone?: string },
): CalendarEntry[] {
  return dates.flatMap(({ id, patientId, reference, kind, day, time, state, sequence, changedAt }) => {
    const cancelled = state !== 'open';
    const changedOn = changedAt.toISOString().slice(0, 10) as CalendarDay;
    if (cancelled && addDays(changedOn, CANCELLED_DAYS) < today) return [];
    return [
      {
        uid: `${id}@${host}`,
        day,
        ...(time && { startMs: instantOf(day, time, timeZone) }),
        summary: `${WORDS[kind] ?? kind}, ${reference}`,
        cancelled,
        sequence,
        changedAtMs: changedAt.getTime(),
        url: `${address}/patients/${patientId}`,
        alarmDays,
      },
    ];
  });
}
