import { z } from 'zod';
import { type CalendarDay, readDay } from '../units/calendar-day';

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

/** A booking as it is stored and comes in a file, its parts in one order. */
export const BOOKING: z.ZodType<Booking> = z.object({
  day: z.custom<CalendarDay>((value) => typeof value === 'string' && readDay(value).kind === 'read', 'is not a day'),
  time: z.string().regex(TIME).nullable(),
  what: z.string().min(1).max(LONGEST_BOOKING).nullable(),
  state: z.enum(BOOKING_STATES),
});

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

/** Bookings in the order of their days and times. */
export function inOrderOfBooking<T extends Booking>(bookings: readonly T[]): readonly T[] {
  const at = ({ day, time }: Booking) => `${day} ${time ?? ''}`;
  return [...bookings].sort((one, other) => (at(one) < at(other) ? -1 : at(one) > at(other) ? 1 : 0));
}
