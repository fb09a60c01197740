import { and, asc, eq, gt, isNotNull } from 'drizzle-orm';
import { audit, auditHead, clinic, patient } from '../schema/schema';
import type { Database } from '../sql/database';
import { rowsOf, type Steps } from '../sql/run-steps';
import { type AuditEntry, chained, type Grown } from './audit-chain';
import { ROWS_OF_CLINIC, ROWS_OF_PATIENTS } from './content-owners';
import { CONTENT_TABLES } from './content-tables';
import { type TouchedRow, wordsOf } from './touched-rows';

/** Patients that are read together. */
const PATIENTS = 100;

/** Who a deed of the program itself is by: nobody of the clinic. */
const PROGRAM = 'the program';

/** The deed by which rows from before content was sealed are sealed as they stand. */
export const AS_IT_STOOD = 'record sealed as it stood';

/**
 * Seals the rows of content that were written before their deeds held them: one deed for each patient, so that an erasure takes its
 * salt, and one for the clinic.
 *
 * Runs inside the transaction that brings a database up to date, for a clinic with a history none of whose deeds holds a row. It proves
 * that they have not changed since, not that they had not before: the history and `verify-data` say so.
 */
export function* sealContents(tx: Database, at: Date): Steps<readonly Grown[]> {
  const clinics = yield* rowsOf(
    tx.select({ id: clinic.id, sealed: auditHead.sealed }).from(clinic).innerJoin(auditHead, eq(auditHead.clinicId, clinic.id)),
  );
  const grown: Grown[] = [];
  for (const { id, sealed } of clinics) {
    const done = yield tx
      .select({ id: audit.id })
      .from(audit)
      .where(and(eq(audit.clinicId, id), isNotNull(audit.contents)))
      .limit(1);
    if (done.length === 0) grown.push(...(yield* sealClinic(tx, id, sealed, at)));
  }
  return grown;
}

function* sealClinic(tx: Database, clinicId: string, before: number, at: Date): Steps<readonly Grown[]> {
  const grown = [...(yield* sealPatients(tx, clinicId, at))];
  const own: TouchedRow[] = [];
  for (const [table, read] of Object.entries(ROWS_OF_CLINIC)) {
    for (const { row } of yield* rowsOf(read(tx, clinicId))) own.push(touched(table, row));
  }
  const entry = entryAbout({
    clinicId,
    at,
    subjectKind: 'clinic',
    subjectId: clinicId,
    detail: { rows: own.length, deedsFromBefore: before },
  });
  return [...grown, ...(yield* chained(tx, [entry], own))];
}

/** Seals every row about the patients of a clinic as it stands, one deed a patient. */
export function* sealPatients(tx: Database, clinicId: string, at: Date): Steps<readonly Grown[]> {
  const grown: Grown[] = [];
  for (let after = ''; ; ) {
    const next = and(eq(patient.clinicId, clinicId), gt(patient.id, after));
    const page = yield* rowsOf(tx.select({ id: patient.id }).from(patient).where(next).orderBy(asc(patient.id)).limit(PATIENTS));
    const ids = page.map((one) => one.id);
    const rows = new Map<string, TouchedRow[]>(ids.map((id) => [id, []]));
    if (ids.length > 0) {
      for (const [table, read] of Object.entries(ROWS_OF_PATIENTS)) {
        for (const { owner, row } of yield* rowsOf(read(tx, ids))) rows.get(owner ?? '')?.push(touched(table, row));
      }
    }
    for (const [subjectId, own] of rows) {
      const entry = entryAbout({ clinicId, at, subjectKind: 'patient', subjectId, detail: { rows: own.length } });
      grown.push(...(yield* chained(tx, [entry], own)));
    }
    after = ids.at(-1) ?? '';
    if (page.length < PATIENTS) return grown;
  }
}

function entryAbout(given: Pick<AuditEntry, 'clinicId' | 'at' | 'subjectKind' | 'subjectId' | 'detail'>): AuditEntry {
  return { id: crypto.randomUUID(), who: PROGRAM, action: AS_IT_STOOD, ...given };
}

function touched(table: string, row: Readonly<Record<string, unknown>>): TouchedRow {
  const content = CONTENT_TABLES.get(table);
  if (!content) throw new Error(`${table} holds no content.`);
  return { table, id: String(row.id), words: wordsOf(content, row) };
}
