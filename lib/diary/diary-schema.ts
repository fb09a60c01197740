import { z } from 'zod';
import { type CalendarDay, readDay } from '../units/calendar-day';
import { DIARY_BOUNDS, type Diary } from './diary';

const day = z.custom<CalendarDay>((value) => typeof value === 'string' && readDay(value).kind === 'read', 'is not a day');

/** A diary as it is stored. */
export const DIARY: z.ZodType<Diary> = z.object({
  weekdays: z.array(z.int().min(0).max(6)).min(1),
  closed: z.array(z.object({ from: day, until: day, why: z.string().max(DIARY_BOUNDS.why) })).max(DIARY_BOUNDS.spans),
  capacity: z.int().min(1).max(DIARY_BOUNDS.capacity).nullable(),
});
