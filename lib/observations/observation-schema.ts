import { z } from 'zod';
import { LIMBS, type LimbKind } from '../ladder/limb';
import { type CalendarDay, readDay } from '../units/calendar-day';
import { LONGEST_SEEN, type Observation } from './observation';

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
