import type { LimbKind, Side } from '../ladder/limb';
import type { CalendarDay } from '../units/calendar-day';

/** Where on a limb something was seen: which limb, how far along it from its far landmark (0) to its near one (1). */
export type PlaceOnLimb = { readonly limb: LimbKind; readonly side: Side; readonly along: number };

/**
 * Something looked at on a day: its kind by the id of the catalogue with the version of its items, one figure an item, by whom, in words.
 *
 * A mark on the skin also has a place and the day it was gone.
 */
export type Observation = {
  readonly kind: string;
  readonly version: string;
  readonly day: CalendarDay;
  readonly figures: Readonly<Record<string, number>>;
  /** One of the choices of its kind: what a mark is, active or passive. */
  readonly choice: string | null;
  readonly side: Side | null;
  readonly place: PlaceOnLimb | null;
  readonly gone: CalendarDay | null;
  readonly rater: string | null;
  readonly words: string | null;
};

/** An observation under its id. */
export type KeptObservation = Observation & { readonly observationId: string };

/** Longest words of an observation. */
export const LONGEST_SEEN = 300;
