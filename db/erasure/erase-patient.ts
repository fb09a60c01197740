import { and, eq, inArray, isNotNull, ne, sql } from 'drizzle-orm';
import { changedParts } from '@/lib/service/service-parts';
import { type AuditEntry, chained, type Grown } from '../audit/audit-chain';
import { keepHeads } from '../audit/audit-head';
import { ERASED } from '../audit/chain-walk';
import { TouchedRows } from '../audit/touched-rows';
import { getDatabase } from '../client';
import { deleteContent, idsOf } from '../patients/patient-content';
import { audit, erasure, patient, serviceCount, servicePart, workCount, workLine, workState } from '../schema/schema';
import { addToCounts, countsOfNothing } from '../service/renew-parts';
import type { Database } from '../sql/database';
import { rowsOf, runTransaction, type Steps } from '../sql/run-steps';
import type { Therapist } from '../therapist';
import { KNOWN, PATIENT } from '../worklist/work-diff';

const PAGE = 500;

/** What an erasure took: rows of content, and audit rows whose detail was blanked. */
export type Erased = { readonly rows: number; readonly blanked: number };

/**
 * Takes everything a patient's record says out of the database, in one transaction.
 *
 * Left are the patient's id without a word, the erasure with who, when and why, and the audit rows without their details: the chain holds,
 * because details enter it by a digest only. The numbers of the blanked rows go into the chain themselves, so that no other blanking
 * passes for this one. The reason stays: it must not name the patient.
 */
export async function erasePatient(therapist: Therapist, patientId: string, reason: string, at = new Date()): Promise<Erased | undefined> {
  if (therapist.role !== 'lead') throw new Error('Only a lead erases a patient.');
  const erased = await runTransaction(await getDatabase(), (tx) => stepsOf(tx, therapist, patientId, reason, at));
  if (erased) keepHeads(erased.grown);
  return erased && { rows: erased.rows, blanked: erased.blanked };
}

function* stepsOf(
  tx: Database,
  { id: by, clinicId }: Therapist,
  patientId: string,
  reason: string,
  at: Date,
): Steps<(Erased & { readonly grown: readonly Grown[] }) | undefined> {
  const skeleton = { referenceKey: `erased ${patientId}`, searchText: '' };
  const own = and(eq(patient.id, patientId), eq(patient.clinicId, clinicId));
  const touched = new TouchedRows();
  const found = yield* touched.run(tx.update(patient).set(skeleton).where(own).returning({ id: patient.id }));
  if (found.length === 0) return undefined;
  const erasureId = crypto.randomUUID();
  const named = { id: erasureId, clinicId, patientId, by, at, reason };
  yield* touched.run(tx.insert(erasure).values(named).returning({ id: erasure.id }));
  const ids = yield* idsOf(tx, patientId);
  yield* uncount(tx, clinicId, patientId);
  yield* uncountService(tx, clinicId, patientId);
  const rows = yield* touched.runAll(deleteContent(tx, patientId, ids));
  const blanked = yield* blankDetails(tx, clinicId, [patientId, ...Object.values(ids).flat()], erasureId);
  const detail = { reason, rows, blanked };
  const entry: AuditEntry = {
    id: crypto.randomUUID(),
    clinicId,
    at,
    who: by,
    action: ERASED,
    subjectKind: 'patient',
    subjectId: patientId,
    detail,
  };
  const grown = yield* chained(tx, [entry], touched.list());
  return { rows, blanked: blanked.length, grown };
}

/** Blanks the details and salts of every deed about these things, but of an erasure; gives the numbers of the rows. */
function* blankDetails(tx: Database, clinicId: string, subjects: readonly string[], erasureId: string): Steps<readonly number[]> {
  const numbers: number[] = [];
  for (let from = 0; from < subjects.length; from += PAGE) {
    const rows = yield* rowsOf(
      tx
        .update(audit)
        .set({ detail: null, salt: null, erasureId })
        .where(
          and(
            eq(audit.clinicId, clinicId),
            inArray(audit.subjectId, subjects.slice(from, from + PAGE)),
            isNotNull(audit.salt),
            ne(audit.action, ERASED),
          ),
        )
        .returning({ number: audit.number }),
    );
    for (const { number } of rows) if (number !== null) numbers.push(number);
  }
  return numbers.sort((one, other) => one - other);
}

/** Takes the patient's stored lines out of the counts by day, which are kept in step by differences. */
function* uncount(tx: Database, clinicId: string, patientId: string): Steps<void> {
  const lines = yield* rowsOf(tx.select().from(workLine).where(eq(workLine.patientId, patientId)));
  const [state] = yield* rowsOf(tx.select({ basis: workState.basis }).from(workState).where(eq(workState.patientId, patientId)));
  const counted = [
    ...lines.flatMap(({ kind, due, first }) => [{ kind, due }, ...(first ? [{ kind: PATIENT, due }] : [])]),
    ...(state && state.basis !== null ? [{ kind: KNOWN, due: '' }] : []),
  ];
  for (const { kind, due } of counted) {
    const one = and(eq(workCount.clinicId, clinicId), eq(workCount.kind, kind), eq(sql`${workCount.due}`, due));
    yield tx
      .update(workCount)
      .set({ lines: sql`${workCount.lines} - 1` })
      .where(one)
      .returning({ id: workCount.id });
  }
}

/** Takes the patient's part out of the counts of the service, and away what counts nothing more: its kinds may hold words. */
function* uncountService(tx: Database, clinicId: string, patientId: string): Steps<void> {
  const own = and(eq(servicePart.patientId, patientId), eq(servicePart.clinicId, clinicId));
  const [stored] = yield* rowsOf(tx.select({ parts: servicePart.parts }).from(servicePart).where(own));
  for (const step of addToCounts(clinicId, changedParts(stored?.parts ?? [], []))) yield step(tx);
  yield tx.delete(serviceCount).where(countsOfNothing(clinicId)).returning({ id: serviceCount.id });
}
