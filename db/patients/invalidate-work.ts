import { and, eq, sql } from 'drizzle-orm';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { workState } from '../schema/schema';
import type { Therapist } from '../therapist';

/** The step that goes with every write to a patient's record: the stored lines of this patient no longer hold and will be renewed. */
export function invalidateWork(therapist: Pick<Therapist, 'clinicId'>, patientId: string): Statement {
  const row = { patientId, clinicId: therapist.clinicId, changes: 1, renewedFor: null, counted: false };
  return (tx) =>
    tx
      .insert(workState)
      .values(row)
      .onConflictDoUpdate({
        target: workState.patientId,
        set: { changes: sql`${workState.changes} + 1`, renewedFor: null, counted: false },
      })
      .returning({ id: workState.patientId });
}

/** How many writes a patient's record has had. Read it before the record, and give it to `invalidateWorkFrom`. */
export async function changesOf(therapist: Therapist, patientId: string): Promise<number> {
  const database = await getDatabase();
  const [state] = await database
    .select({ changes: workState.changes })
    .from(workState)
    .where(and(eq(workState.patientId, patientId), eq(workState.clinicId, therapist.clinicId)));
  return state?.changes ?? 0;
}

/** The same step for a write that stands on the record as it was read: it touches no row when another write came in between. */
export function invalidateWorkFrom(therapist: Therapist, patientId: string, changes: number): Statement {
  const asRead = and(eq(workState.patientId, patientId), eq(workState.clinicId, therapist.clinicId), eq(workState.changes, changes));
  return (tx) =>
    tx
      .update(workState)
      .set({ changes: changes + 1, renewedFor: null, counted: false })
      .where(asRead)
      .returning({ id: workState.patientId });
}
