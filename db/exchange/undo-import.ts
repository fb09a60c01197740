import { and, asc, eq, inArray } from 'drizzle-orm';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { changesOf, invalidateWorkFrom } from '../patients/invalidate-work';
import { ordersOf } from '../patients/read-orders';
import { type KeptRecord, recordOf } from '../patients/records';
import { REVOKED } from '../patients/revoked';
import { dataImport, garmentOrder, importItem, patient, piece, visit } from '../schema/schema';
import type { AddedByImport } from '../schema/schema-imports';
import { letOthers } from '../sql/let-others';
import { whenFree } from '../sql/storage-trouble';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';

/** What an undo came to: patients taken back, and those that stay because somebody has worked on them since. */
export type Undone = { readonly undone: number; readonly stayed: readonly string[] };

/** Takes an import back, each patient whole or not at all. A patient whose record went on since stays, and is named. */
export async function undoImport(therapist: Therapist, importId: string, at = new Date()): Promise<Undone | undefined> {
  assertMayWrite(therapist);
  const database = await getDatabase();
  const own = and(eq(dataImport.id, importId), eq(dataImport.clinicId, therapist.clinicId));
  const [head] = await database.select({ state: dataImport.state }).from(dataImport).where(own);
  if (!head || head.state === 'open') return undefined;
  const items = await database
    .select()
    .from(importItem)
    .where(
      and(eq(importItem.importId, importId), eq(importItem.clinicId, therapist.clinicId), inArray(importItem.state, ['new', 'extended'])),
    )
    .orderBy(asc(importItem.position));
  const stayed: string[] = [];
  let undone = 0;
  for (const { id, state, patientId, added } of items) {
    if (!patientId || !added) continue;
    const changes = await changesOf(therapist, patientId);
    const record = await recordOf(therapist, patientId);
    if (!record) continue;
    const item = { id, isNew: state === 'new', patientId, added, changes };
    const taken = (await isUntouched(therapist, record, item)) && (await takeBack(therapist, item, at));
    if (taken) undone += 1;
    else stayed.push(record.reference);
    await letOthers();
  }
  await whenFree(async () => database.update(dataImport).set({ state: 'undone' }).where(own));
  return { undone, stayed };
}

type Item = {
  readonly id: string;
  readonly isNew: boolean;
  readonly patientId: string;
  readonly added: AddedByImport;
  readonly changes: number;
};

async function takeBack(therapist: Therapist, { id, isNew, patientId, added, changes }: Item, at: Date): Promise<boolean> {
  const written = await inTransaction([
    ...headsTakenBack(therapist, added),
    ...(isNew ? [patientTakenBack(therapist, patientId)] : []),
    invalidateWorkFrom(therapist, patientId, changes),
    (tx) => tx.update(importItem).set({ state: 'undone' }).where(eq(importItem.id, id)).returning({ id: importItem.id }),
    auditEntry(therapist, { action: 'import taken back', subjectKind: 'patient', subjectId: patientId, detail: { item: id } }, at),
  ]);
  return written.kind === 'written';
}

/** True when nothing was written to a new patient but the import itself, and nothing of a known one is cut from a visit it added. */
async function isUntouched(therapist: Therapist, record: KeptRecord, { added, isNew, changes }: Item): Promise<boolean> {
  if (isNew) return changes === 1;
  const orders = await ordersOf(therapist, record.head.patientId);
  const stays = ({ cutFromVisitId }: { readonly cutFromVisitId: string | null }) => !added.visits.includes(cutFromVisitId ?? '');
  return record.pieces.every((one) => added.pieces.includes(one.pieceId) || stays(one)) && orders.every(stays);
}

/** Steps that take heads back as they were brought in: one that was corrected since is not touched, which undoes all. */
function headsTakenBack({ clinicId }: Therapist, { visits, pieces, orders }: AddedByImport): readonly Statement[] {
  const steps = (table: typeof visit | typeof piece | typeof garmentOrder, ids: readonly string[]): Statement[] =>
    ids.map(
      (id) => (tx) =>
        tx
          .update(table)
          .set({ revision: REVOKED })
          .where(and(eq(table.id, id), eq(table.clinicId, clinicId), eq(table.revision, 1)))
          .returning({ id: table.id }),
    );
  return [...steps(visit, visits), ...steps(piece, pieces), ...steps(garmentOrder, orders)];
}

function patientTakenBack({ clinicId }: Therapist, patientId: string): Statement {
  const gone = { revision: REVOKED, referenceKey: `taken back ${patientId}`, searchText: '' };
  return (tx) =>
    tx
      .update(patient)
      .set(gone)
      .where(and(eq(patient.id, patientId), eq(patient.clinicId, clinicId), eq(patient.revision, 1)))
      .returning({ id: patient.id });
}
