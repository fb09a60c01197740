import { z } from 'zod';
import { type CalendarDay, readDay } from '../units/calendar-day';
import { DOMINANT, LONGEST_FACT, MOST_OF_A_KIND, type WorkFacts } from './work-facts';

const day = z.custom<CalendarDay>((value) => typeof value === 'string' && readDay(value).kind === 'read', 'is not a day');
const short = z.string().min(1).max(LONGEST_FACT.short);
const words = z.string().min(1).max(LONGEST_FACT.words);

/** The facts as they are stored and as they come in a file, their parts in one order. */
export const WORK_FACTS: z.ZodType<WorkFacts> = z.object({
  referralDay: day.nullable(),
  referralUntil: day.nullable(),
  referralFor: words.nullable(),
  prescriber: short.nullable(),
  prescriberReach: words.nullable(),
  stage: short.nullable(),
  dominantHand: z.enum(DOMINANT).nullable(),
  cause: words.nullable(),
  injured: day.nullable(),
  healed: day.nullable(),
  grafted: z.array(day).max(MOST_OF_A_KIND),
  burntPct: z.number().min(0).max(100).nullable(),
  interpreter: z.boolean(),
  contacts: z.array(z.object({ name: short, relation: short.nullable(), phone: short.nullable() })).max(MOST_OF_A_KIND),
  consents: z.array(z.object({ to: words, day })).max(MOST_OF_A_KIND),
});
