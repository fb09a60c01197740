import { and, eq, sql } from 'drizzle-orm';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { workState } from '../schema/schema';
import { readyQuery } from '../sql/ready-query';
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

const countedUp = readyQuery({ id: workState.patientId }, (database) =>
  database
    .update(workState)
    .set({ changes: sql`${workState.changes} + 1`, renewedFor: null, counted: false })
    .where(
      and(
        eq(workState.patientId, sql.placeholder('patientId')),
        eq(workState.clinicId, sql.placeholder('clinicId')),
        eq(workState.changes, sql.placeholder('changes')),
      ),
    )
    .returning({ id: workState.patientId }),
);

/** The same step for a write that stands on the record as it was read: it touches no row when another write came in between. */
export function invalidateWorkFrom(therapist: Therapist, patientId: string, changes: number): Statement {
  return (tx) => countedUp(tx, { patientId, clinicId: therapist.clinicId, changes });
}
