import { and, eq, gt, inArray, isNull, lt, or, type SQL, sql } from 'drizzle-orm';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { workCount, workState } from '../schema/schema';
import { ifItCan } from '../sql/storage-trouble';
import { tryAgain } from '../sql/try-again';
import type { Therapist } from '../therapist';
import { KNOWN } from './work-diff';

/** The day and basis that stored lines must have been made for. */
export type WorkAim = { readonly today: CalendarDay; readonly basis: string };

/**
 * Patients whose stored lines are of another day, of other rules or limits, or older than the record.
 *
 * Each way to be stale is a range of its own of an index that begins with the clinic: finding them costs them, not the clinic.
 */
function isStale(clinicId: string, { today, basis }: WorkAim): SQL | undefined {
  const { renewedFor, basis: madeWith } = workState;
  const ways = [
    isNull(renewedFor),
    lt(renewedFor, today),
    gt(renewedFor, today),
    isNull(madeWith),
    lt(madeWith, basis),
    gt(madeWith, basis),
  ];
  return or(...ways.map((way) => and(eq(workState.clinicId, clinicId), way)));
}

/** How many patients are still to be looked at, and how many the clinic has. */
export async function staleCount(therapist: Therapist, aim: WorkAim): Promise<{ readonly behind: number; readonly patients: number }> {
  const database = await getDatabase();
  const [behind = { all: 0, unknown: 0 }] = await database
    .select({ all: sql`count(*)`.mapWith(Number), unknown: sql`count(case when ${workState.basis} is null then 1 end)`.mapWith(Number) })
    .from(workState)
    .where(isStale(therapist.clinicId, aim));
  const [known] = await database
    .select({ patients: workCount.lines })
    .from(workCount)
    .where(and(eq(workCount.clinicId, therapist.clinicId), eq(workCount.kind, KNOWN)));
  return { behind: behind.all, patients: (known?.patients ?? 0) + behind.unknown };
}

/** Some stale patients that nobody else is at, taken for a while: another process that asks meanwhile gets others. */
export async function claimStale(therapist: Therapist, aim: WorkAim, most: number, now: Date, claimMs: number): Promise<string[]> {
  const database = await getDatabase();
  const free = or(isNull(workState.claimedUntil), lt(workState.claimedUntil, now));
  const wanted = and(isStale(therapist.clinicId, aim), free);
  for (;;) {
    const found = await database.select({ id: workState.patientId }).from(workState).where(wanted).limit(most);
    if (found.length === 0) return [];
    const ids = found.map((row) => row.id).sort();
    const claim = database
      .update(workState)
      .set({ claimedUntil: new Date(now.getTime() + claimMs) })
      .where(and(inArray(workState.patientId, ids), wanted))
      .returning({ id: workState.patientId });
    const claimed = await ifItCan(() => tryAgain(async () => claim));
    if (!claimed) return [];
    if (claimed.length > 0) return claimed.map((row) => row.id);
  }
}
