import { and, asc, eq, gt } from 'drizzle-orm';
import type { PatientDetails } from '@/lib/record/patient-details';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { patient, patientRevision } from '../schema/schema';
import type { Database } from '../sql/database';
import { isDuplicate } from '../sql/is-duplicate';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { invalidateWork } from './invalidate-work';
import { REVOKED } from './revoked';

/** A patient as known now: the details of the current revision. */
export type PatientHead = PatientDetails & { readonly patientId: string; readonly revision: number };

/** How the saving of a patient ended. */
export type PatientSaved =
  | { readonly kind: 'saved' | 'already-saved'; readonly patientId: string }
  | { readonly kind: 'reference-taken'; readonly patientId: string }
  | { readonly kind: 'conflict'; readonly theirs: PatientHead; readonly yours: PatientDetails }
  | { readonly kind: 'not-found' };

/** The columns of a patient's current details; join `patient` with `patientRevision` on `isCurrent`. */
export const headColumns = {
  patientId: patient.id,
  revision: patient.revision,
  reference: patientRevision.reference,
  name: patientRevision.name,
  born: patientRevision.born,
  sex: patientRevision.sex,
  diagnosisGroup: patientRevision.diagnosisGroup,
  affected: patientRevision.affected,
  affectedParts: patientRevision.affectedParts,
  language: patientRevision.language,
  note: patientRevision.note,
};

/** Joins a patient's head with the revision that counts. */
export const isCurrent = and(eq(patientRevision.patientId, patient.id), eq(patientRevision.number, patient.revision));

/** A patient of the clinic as known now; undefined when the clinic has none of that id. */
export async function patientHead(therapist: Therapist, patientId: string): Promise<PatientHead | undefined> {
  const database = await getDatabase();
  const [found] = await database
    .select(headColumns)
    .from(patient)
    .innerJoin(patientRevision, isCurrent)
    .where(and(eq(patient.clinicId, therapist.clinicId), eq(patient.id, patientId)));
  return found;
}

/** A patient's details in one of the states they were in, with who wrote it, when and why. */
export type PatientState = PatientHead & { readonly author: string; readonly at: Date; readonly reason: string | null };

/** Every state of a patient's details, oldest first; none when the clinic has no patient of that id. */
export async function patientStates(therapist: Therapist, patientId: string): Promise<readonly PatientState[]> {
  const database = await getDatabase();
  const { author, at, reason, number } = patientRevision;
  return database
    .select({ ...headColumns, revision: number, author, at, reason })
    .from(patient)
    .innerJoin(patientRevision, eq(patientRevision.patientId, patient.id))
    .where(and(eq(patient.clinicId, therapist.clinicId), eq(patient.id, patientId), gt(patient.revision, REVOKED)))
    .orderBy(asc(number));
}

/** Adds a patient. The same submission sent twice makes one; a reference that the clinic already uses is told. */
export async function addPatient(
  therapist: Therapist,
  entry: { readonly submissionId: string; readonly details: PatientDetails },
  at = new Date(),
): Promise<PatientSaved> {
  assertMayWrite(therapist);
  const { patientId, statements } = newPatient(therapist, entry, at);
  const written = await inTransaction([...statements, invalidateWork(therapist, patientId)]);
  if (written.kind === 'written') return { kind: 'saved', patientId };
  const database = await getDatabase();
  const saved = await submitted(database, therapist, entry.submissionId);
  if (saved) return { kind: 'already-saved', patientId: saved };
  return referenceTaken(database, therapist, entry.details.reference);
}

/** The steps that add a patient: the head, the first revision, the note in the audit. */
export function newPatient(
  therapist: Therapist,
  entry: { readonly submissionId: string; readonly details: PatientDetails },
  at: Date,
): { readonly patientId: string; readonly statements: readonly Statement[] } {
  const patientId = crypto.randomUUID();
  const head = { id: patientId, clinicId: therapist.clinicId, revision: 1, ...searchedBy(entry.details) };
  const statements: Statement[] = [
    (tx) => tx.insert(patient).values(head).onConflictDoNothing().returning({ id: patient.id }),
    insertRevision(therapist, patientId, 1, entry.details, entry.submissionId, null, at),
    auditEntry(therapist, { action: 'patient added', subjectKind: 'patient', subjectId: patientId }, at),
  ];
  return { patientId, statements };
}

/**
 * Corrects a patient by a new revision. Earlier ones stay; someone else's newer one is shown, not overwritten. Affected parts that the form
 * does not speak of stay as they are.
 */
export async function revisePatient(
  therapist: Therapist,
  patientId: string,
  expectedRevision: number,
  entry: { readonly submissionId: string; readonly details: PatientDetails; readonly reason: string | null },
  at = new Date(),
): Promise<PatientSaved> {
  assertMayWrite(therapist);
  const theirs = await patientHead(therapist, patientId);
  if (!theirs) return { kind: 'not-found' };
  const database = await getDatabase();
  const next = expectedRevision + 1;
  const details = { affectedParts: theirs.affectedParts ?? null, ...entry.details };
  try {
    const written = await inTransaction([
      (tx) =>
        tx
          .update(patient)
          .set({ revision: next, ...searchedBy(entry.details) })
          .where(and(eq(patient.id, patientId), eq(patient.clinicId, therapist.clinicId), eq(patient.revision, expectedRevision)))
          .returning({ id: patient.id }),
      insertRevision(therapist, patientId, next, details, entry.submissionId, entry.reason, at),
      invalidateWork(therapist, patientId),
      auditEntry(therapist, { action: 'patient revised', subjectKind: 'patient', subjectId: patientId, detail: { revision: next } }, at),
    ]);
    if (written.kind === 'written') return { kind: 'saved', patientId };
  } catch (error) {
    if (isDuplicate(error)) return referenceTaken(database, therapist, entry.details.reference);
    throw error;
  }
  const saved = await submitted(database, therapist, entry.submissionId);
  if (saved) return { kind: 'already-saved', patientId: saved };
  return { kind: 'conflict', theirs: (await patientHead(therapist, patientId)) ?? theirs, yours: entry.details };
}

function searchedBy(details: PatientDetails) {
  const referenceKey = details.reference.toLowerCase();
  return { referenceKey, searchText: `${referenceKey} ${details.name?.toLowerCase() ?? ''}`.trim() };
}

function insertRevision(
  therapist: Therapist,
  patientId: string,
  number: number,
  details: PatientDetails,
  submissionId: string,
  reason: string | null,
  at: Date,
): Statement {
  const row = { ...details, id: crypto.randomUUID(), clinicId: therapist.clinicId, patientId, number, author: therapist.id, at, reason };
  return (tx) =>
    tx
      .insert(patientRevision)
      .values({ ...row, submissionId })
      .onConflictDoNothing()
      .returning({ id: patientRevision.id });
}

async function submitted(database: Database, therapist: Therapist, submissionId: string): Promise<string | undefined> {
  const [found] = await database
    .select({ patientId: patientRevision.patientId })
    .from(patientRevision)
    .where(and(eq(patientRevision.clinicId, therapist.clinicId), eq(patientRevision.submissionId, submissionId)));
  return found?.patientId;
}

async function referenceTaken(database: Database, therapist: Therapist, reference: string): Promise<PatientSaved> {
  const [found] = await database
    .select({ patientId: patient.id })
    .from(patient)
    .where(and(eq(patient.clinicId, therapist.clinicId), eq(patient.referenceKey, reference.toLowerCase())));
  return found ? { kind: 'reference-taken', patientId: found.patientId } : { kind: 'not-found' };
}
