import { and, asc, eq, inArray } from 'drizzle-orm';
import type { MovedDate } from '@/lib/schedule/scheduled-date';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { invalidateWork } from '../patients/invalidate-work';
import { patientHead } from '../patients/patients';
import { movedDate, user } from '../schema/schema';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';

/** A move as kept: whose date, and by whom in words. */
export type KeptMove = MovedDate & { readonly patientId: string; readonly byName: string | null };

/** Every move of these patients' dates, oldest first: one query. */
export async function movesOf(therapist: Therapist, patientIds: readonly string[]): Promise<readonly KeptMove[]> {
  if (patientIds.length === 0) return [];
  const database = await getDatabase();
  const { patientId, key, computed, day, reason, by, at } = movedDate;
  return database
    .select({ patientId, key, computed, day, reason, by, at, byName: user.name })
    .from(movedDate)
    .leftJoin(user, eq(user.id, movedDate.by))
    .where(and(eq(movedDate.clinicId, therapist.clinicId), inArray(movedDate.patientId, [...patientIds])))
    .orderBy(asc(movedDate.at), asc(movedDate.id));
}

/** Moves one date by adding a row; earlier moves stay. False when the clinic has no such patient. */
export async function moveDate(
  therapist: Therapist,
  patientId: string,
  move: Pick<MovedDate, 'key' | 'computed' | 'day' | 'reason'>,
  at = new Date(),
): Promise<boolean> {
  assertMayWrite(therapist);
  if (!(await patientHead(therapist, patientId))) return false;
  const row = { ...move, id: crypto.randomUUID(), clinicId: therapist.clinicId, patientId, by: therapist.id, at };
  const detail = { key: move.key, computed: move.computed, day: move.day };
  await inTransaction([
    (tx) => tx.insert(movedDate).values(row).returning({ id: movedDate.id }),
    invalidateWork(therapist, patientId),
    auditEntry(therapist, { action: 'date moved', subjectKind: 'patient', subjectId: patientId, detail }, at),
  ]);
  return true;
}
