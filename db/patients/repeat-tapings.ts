import { and, eq, gte, max, sum } from 'drizzle-orm';
import type { Ladder } from '@/lib/ladder/ladder';
import { type RepeatPairs, repeatPairs } from '@/lib/ladder/repeat-sd';
import { addMonths, type CalendarDay, calendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { repeatTaping, visit } from '../schema/schema';
import type { Therapist } from '../therapist';

/** Months that the clinic's own tapings count for: people, tapes and habits change. Clinic default. */
const REPEAT_MONTHS = 24;

/** The rows of a saved revision: one for each ladder that has second tapings. */
export function repeatRows(
  clinicId: string,
  of: { readonly visitId: string; readonly revision: number; readonly day: CalendarDay },
  ladders: readonly Ladder[],
): (typeof repeatTaping.$inferInsert)[] {
  return ladders
    .map(repeatPairs)
    .filter(({ pairs }) => pairs > 0)
    .map((found) => ({ id: crypto.randomUUID(), clinicId, ...of, ...found }));
}

/** The clinic's second tapings of the last two years as the visits stand now, and the day of the newest; one bounded query. */
export async function repeatTapingsOf(
  therapist: Therapist,
  at = new Date(),
): Promise<RepeatPairs & { readonly newest: CalendarDay | null }> {
  const database = await getDatabase();
  const since = addMonths(calendarDay(at.toISOString().slice(0, 10)), -REPEAT_MONTHS);
  const [found] = await database
    .select({ pairs: sum(repeatTaping.pairs), squaresMm2: sum(repeatTaping.squaresMm2), newest: max(repeatTaping.day) })
    .from(repeatTaping)
    .innerJoin(visit, and(eq(visit.id, repeatTaping.visitId), eq(visit.revision, repeatTaping.revision)))
    .where(and(eq(repeatTaping.clinicId, therapist.clinicId), gte(repeatTaping.day, since)));
  return { pairs: Number(found?.pairs ?? 0), squaresMm2: Number(found?.squaresMm2 ?? 0), newest: found?.newest ?? null };
}
