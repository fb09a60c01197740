import type { Policy } from '../limits/policy';
import { addDays, type CalendarDay, daysBetween, readDay, showDay, showShortWeekday, showWeekday } from '../units/calendar-day';
import { closedOn, type Diary } from './diary';

/** What became of a booked visit. That one was kept is not written down: it follows from a visit of that day. */
export const BOOKING_STATES = ['booked', 'missed', 'cancelled by the clinic', 'cancelled by the person'] as const;
export type BookingState = (typeof BOOKING_STATES)[number];

/** A booked visit: its day, the clock time where one was given, what for, and what became of it. */
export type Booking = {
  readonly day: CalendarDay;
  readonly time: string | null;
  readonly what: string | null;
  readonly state: BookingState;
};

/** A booking under its id. */
export type KeptBooking = Booking & { readonly bookingId: string };

/** Longest words of a booking. */
export const LONGEST_BOOKING = 120;

const TIME = /^([01]\d|2[0-3]):[0-5]\d$/;

/** True for a clock time `HH:MM` of a day. */
export function isClockTime(text: string): boolean {
  return TIME.test(text);
}

/** How a booking stands on a day: what was written of it, that it was kept, or that nobody has said. */
export type BookingStanding = 'kept' | 'ahead' | 'not said' | Exclude<BookingState, 'booked'>;

/**
 * How a booking stands: kept where something was measured on its day; ahead from today on; not said where its day has passed without a word.
 *
 * Example: booked for 4 Nov, a visit of 4 Nov on record: kept, also when that visit was written down later.
 */
export function bookingStanding({ day, state }: Booking, visitDays: ReadonlySet<CalendarDay>, today: CalendarDay): BookingStanding {
  if (visitDays.has(day) && state !== 'cancelled by the clinic' && state !== 'cancelled by the person') return 'kept';
  if (state !== 'booked') return state;
  return day >= today ? 'ahead' : 'not said';
}

/**
 * Whether a visit that is due is answered by a booking: one that is ahead, not later than the clinic's limit after the due day, or after today
 * where that has passed.
 *
 * Example: due 6 Jan and booked for 20 Jan: yes; booked for September: no.
 */
export function isBookedFor(
  due: CalendarDay,
  { bookings = [], visits }: { readonly bookings?: readonly Booking[]; readonly visits: readonly { readonly day: CalendarDay }[] },
  { bookingLateDays }: Pick<Policy, 'bookingLateDays'>,
  today: CalendarDay,
): boolean {
  const latest = addDays(due > today ? due : today, bookingLateDays);
  const visitDays = new Set(visits.map(({ day }) => day));
  return bookings.some((one) => one.day <= latest && bookingStanding(one, visitDays, today) === 'ahead');
}

/** What the form of a booking says, or a sentence beside each box that stops it; `asks` are questions that a tick answers. */
export type BookingRead =
  | { readonly kind: 'read'; readonly booking: Booking; readonly asks: readonly string[] }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/** Days ahead for which a visit is booked at most. Clinic default. */
const FURTHEST_AHEAD = 730;

/**
 * A booking as typed, always one that is still booked.
 *
 * Refuses a day that is none, one that has passed, one more than two years ahead, a time that is none, words that are too long. Asks about a
 * day on which the clinic is closed, and about one that is full: `onThatDay` counts the other bookings of the clinic on the day typed.
 */
export function readBooking(
  typed: Readonly<Record<string, string>>,
  { today, diary, onThatDay }: { readonly today: CalendarDay; readonly diary: Diary; readonly onThatDay: (day: CalendarDay) => number },
): BookingRead {
  const errors: Record<string, string> = {};
  const read = readDay(typed.day ?? '');
  const day = read.kind === 'read' ? read.value : undefined;
  if (!day) errors.day = (typed.day ?? '').trim() === '' ? 'Choose a day.' : 'This is not a day of the calendar.';
  else if (day < today) errors.day = `${showDay(day)} has passed.`;
  else if (daysBetween(today, day) > FURTHEST_AHEAD) errors.day = `${showDay(day)} is more than two years ahead.`;
  const time = (typed.time ?? '').trim() || null;
  if (time && !isClockTime(time)) errors.time = `“${time.slice(0, 10)}” is not a clock time. Type 09:30.`;
  const what = (typed.what ?? '').trim() || null;
  if (what && what.length > LONGEST_BOOKING) errors.what = `Too long: ${LONGEST_BOOKING} characters at most.`;
  if (!day || Object.keys(errors).length > 0) return { kind: 'refused', errors };
  const closed = closedOn(diary, day);
  const others = diary.capacity === null ? 0 : onThatDay(day);
  const full = diary.capacity !== null && others >= diary.capacity;
  const asks = [
    ...(closed ? [`${showWeekday(day)}: ${closed}`] : []),
    ...(full
      ? [`${others === 1 ? 'One visit is' : `${others} visits are`} booked on ${showWeekday(day)}; ${diary.capacity} a day are usual.`]
      : []),
  ];
  return { kind: 'read', booking: { day, time, what, state: 'booked' }, asks };
}

/** A booked visit in words. Example: `of Wed 2 Dec at 09:30, fit`. */
export function bookingInWords({ day, time, what }: Booking): string {
  return `of ${showShortWeekday(day)}${time ? ` at ${time}` : ''}${what ? `, ${what}` : ''}`;
}

/** Bookings in the order of their days and times. */
export function inOrderOfBooking<T extends Booking>(bookings: readonly T[]): readonly T[] {
  const at = ({ day, time }: Booking) => `${day} ${time ?? ''}`;
  return [...bookings].sort((one, other) => (at(one) < at(other) ? -1 : at(one) > at(other) ? 1 : 0));
}
