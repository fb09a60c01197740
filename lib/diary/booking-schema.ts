import { z } from 'zod';
import { type CalendarDay, readDay } from '../units/calendar-day';
import { BOOKING_STATES, type Booking, isClockTime, LONGEST_BOOKING } from './booking';

/** A booking as it is stored and comes in a file, its parts in one order. */
export const BOOKING: z.ZodType<Booking> = z.object({
  day: z.custom<CalendarDay>((value) => typeof value === 'string' && readDay(value).kind === 'read', 'is not a day'),
  time: z.string().refine(isClockTime).nullable(),
  what: z.string().min(1).max(LONGEST_BOOKING).nullable(),
  state: z.enum(BOOKING_STATES),
});
