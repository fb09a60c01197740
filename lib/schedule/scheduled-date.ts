import type { ComparedWith } from '../limits/limit-in-words';
import type { WornPlace } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';

/** What a date of the schedule is for. */
export type DateKind =
  | 'visit'
  | 'remeasure'
  | 'order'
  | 'delivery'
  | 'first-fit'
  | 'call'
  | 'end-of-life'
  | 'ask'
  | 'referral'
  | 'booking'
  | 'not-said'
  | 'missed'
  | 'call-back'
  | 'reply';

/** Kinds that are of a booked visit: moved by booking anew, not by hand. */
export const OF_BOOKINGS: readonly DateKind[] = ['booking', 'not-said', 'missed'];

/** Kinds that ask about what a family sent back: ended by an answer, not moved. */
export const OF_REPLIES: readonly DateKind[] = ['call-back', 'reply'];

/** Where the days of an interval come from: a limit, the clinic's table by age, or what was written with the piece. */
export type DateSource = ComparedWith | 'piece';

/** One date as the record and the clinic's intervals give it. */
export type ComputedDate = {
  /** Names the date and its basis: stays the same while the basis does. `visit-after:2026-10-14`, `order-by:3`. */
  readonly key: string;
  readonly kind: DateKind;
  readonly computed: CalendarDay;
  /** One line with the figures behind the day. */
  readonly why: string;
  readonly sources: readonly DateSource[];
  readonly limb: WornPlace | null;
  /** Label of the piece it is about. */
  readonly piece: string | null;
  /** Clock time of a booked visit, `HH:MM`; left out for a whole day. */
  readonly time?: string | null;
};

/** A date moved by hand: for which computed day, to which, why, by whom and when. */
export type MovedDate = {
  readonly key: string;
  readonly computed: CalendarDay;
  readonly day: CalendarDay;
  readonly reason: string;
  readonly by: string;
  readonly byName?: string | null;
  readonly at: Date;
};

/** A date with what a person made of it. */
export type ScheduledDate = ComputedDate & {
  /** The day that counts: computed, or moved by hand. */
  readonly day: CalendarDay;
  readonly moved: MovedDate | null;
  /** A move that no longer holds, because new data gave another day than it was made from. */
  readonly fellAway: MovedDate | null;
};
