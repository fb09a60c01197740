import { sql } from 'drizzle-orm';
import { workState } from './schema';
import type { Therapist } from './therapist';
import type { Statement } from './write-together';

/** The step that goes with every write to a patient's record: the stored lines of this patient no longer hold and will be renewed. */
export function workChanged(therapist: Therapist, patientId: string): Statement {
  const row = { patientId, clinicId: therapist.clinicId, changes: 1, renewedFor: null };
  return (tx) =>
    tx
      .insert(workState)
      .values(row)
      .onConflictDoUpdate({ target: workState.patientId, set: { changes: sql`${workState.changes} + 1`, renewedFor: null } })
      .returning({ id: workState.patientId });
}
