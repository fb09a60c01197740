import { z } from 'zod';
import { LIMBS, type LimbKind } from '../ladder/limb';
import { type CalendarDay, readDay } from '../units/calendar-day';
import { type FamilyReply, REPLY_BOUNDS, REPLY_DEEDS, REPLY_PLACES, REPLY_SIGNS } from './family-reply';

const day = z.custom<CalendarDay>((value) => typeof value === 'string' && readDay(value).kind === 'read', 'is not a day');
const hours = z.number().min(0).max(24).nullable();
const place = z.object({
  limb: z.enum(Object.keys(LIMBS) as [LimbKind, ...LimbKind[]]),
  side: z.enum(['left', 'right']),
  along: z.number().min(0).max(1),
});

/** A reply of a family as it is stored and comes in a file, its parts in one order. */
export const FAMILY_REPLY: z.ZodType<FamilyReply> = z.object({
  day,
  time: z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'is not a clock time'),
  pageOf: day,
  hours,
  planned: hours,
  marks: z.array(z.object({ place, sign: z.enum(REPLY_SIGNS) })).max(REPLY_PLACES.length),
  call: z.boolean(),
  words: z.string().min(1).max(REPLY_BOUNDS.words).nullable(),
  by: z.string().min(1).max(REPLY_BOUNDS.by).nullable(),
  answer: z
    .object({
      did: z.enum(REPLY_DEEDS),
      day,
      by: z.string().min(1).max(120),
      words: z.string().min(1).max(REPLY_BOUNDS.answer).nullable(),
    })
    .nullable(),
});
