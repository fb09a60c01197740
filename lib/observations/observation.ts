import { z } from 'zod';
import { LIMBS, type LimbKind, type Side } from '../ladder/limb';
import { type CalendarDay, readDay } from '../units/calendar-day';

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

const day = z.custom<CalendarDay>((value) => typeof value === 'string' && readDay(value).kind === 'read', 'is not a day');
const side = z.enum(['left', 'right']);

/** An observation as it is stored and comes in a file, its parts in one order. */
export const OBSERVATION: z.ZodType<Observation> = z.object({
  kind: z.string().min(1).max(60),
  version: z.string().max(20),
  day,
  figures: z
    .record(z.string().max(60), z.number())
    .transform((figures) => Object.fromEntries(Object.entries(figures).sort(([one], [other]) => (one < other ? -1 : 1)))),
  choice: z.string().min(1).max(40).nullable(),
  side: side.nullable(),
  place: z.object({ limb: z.enum(Object.keys(LIMBS) as [LimbKind, ...LimbKind[]]), side, along: z.number().min(0).max(1) }).nullable(),
  gone: day.nullable(),
  rater: z.string().max(120).nullable(),
  words: z.string().max(LONGEST_SEEN).nullable(),
});
