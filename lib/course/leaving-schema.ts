import { z } from 'zod';
import { type CalendarDay, readDay } from '../units/calendar-day';
import { LEAVING_BOUNDS, type Leaving, type LeavingTexts } from './leaving';

const criterion = z.string().min(1).max(LEAVING_BOUNDS.criterion);

/** A clinic's texts as they are stored. */
export const LEAVING_TEXTS: z.ZodType<LeavingTexts> = z.object({
  criteria: z.array(criterion).max(LEAVING_BOUNDS.criteria),
  wayBack: z.record(z.string().max(10), z.string().max(LEAVING_BOUNDS.words)),
});

/** A leaving as it is stored and comes in a file, its parts in one order. */
export const LEAVING: z.ZodType<Leaving> = z.object({
  day: z.custom<CalendarDay>((value) => typeof value === 'string' && readDay(value).kind === 'read', 'is not a day'),
  criteria: z.array(z.object({ words: criterion, met: z.boolean() })).max(LEAVING_BOUNDS.criteria),
  supplies: z.string().min(1).max(LEAVING_BOUNDS.short).nullable(),
  note: z.string().min(1).max(LEAVING_BOUNDS.words).nullable(),
});
