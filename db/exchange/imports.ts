import { and, asc, eq, inArray } from 'drizzle-orm';
import type { Mapping } from '@/lib/exchange/spreadsheet/mapping';
import type { PatientFile } from '@/lib/record/patient-file';
import { type AuditedAct, auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { dataImport, importItem } from '../schema/schema';
import { letOthers } from '../sql/let-others';
import { readEach } from '../sql/read-each';
import { whenFree } from '../sql/storage-trouble';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { type BroughtIn, bringIn } from './bring-in';

/** Items written with one insert. */
const CHUNK = 50;

/** How often an item is tried when somebody else writes to the same record at the same moment. */
const TRIES = 3;

/** A file as it came: its name, what it is, and its text. */
export type Upload = { readonly fileName: string; readonly form: (typeof dataImport.$inferSelect)['form']; readonly text: string };

/** Keeps a file until a person has said how it is to be read; nothing is in anybody's record yet. Gives the id of the import. */
export async function keepUpload(therapist: Therapist, { fileName, form, text }: Upload, at = new Date()): Promise<string> {
  assertMayWrite(therapist);
  const id = crypto.randomUUID();
  const head = { id, clinicId: therapist.clinicId, by: therapist.id, at, fileName, form, text, mapping: null, state: 'reading' as const };
  await inTransaction([
    (tx) => tx.insert(dataImport).values(head).returning({ id: dataImport.id }),
    auditEntry(therapist, { action: 'import read', subjectKind: 'import', subjectId: id, detail: { form } }, at),
  ]);
  return id;
}

/** A file that is still being read, with what was said of it so far; undefined when the clinic has none of that id. */
export async function uploadOf(
  therapist: Therapist,
  importId: string,
): Promise<(Upload & { readonly mapping: Mapping | null }) | undefined> {
  const database = await getDatabase();
  const { fileName, form, text, mapping } = dataImport;
  const [found] = await database.select({ fileName, form, text, mapping }).from(dataImport).where(inReading(therapist, importId));
  return found?.text ? { ...found, text: found.text } : undefined;
}

/** Keeps what was said of how a spreadsheet is to be read. */
export async function keepMapping(therapist: Therapist, importId: string, mapping: Mapping): Promise<void> {
  assertMayWrite(therapist);
  const database = await getDatabase();
  await whenFree(async () => database.update(dataImport).set({ mapping }).where(inReading(therapist, importId)));
}

/** Puts the patients of a file in line to be brought in, and lets the file go. The same button pressed twice lines them up once. */
export async function lineUp(therapist: Therapist, importId: string, patients: readonly PatientFile[], at = new Date()): Promise<void> {
  assertMayWrite(therapist);
  await inTransaction([...opened(therapist, importId, patients.length, at), ...inLine(therapist, importId, patients, 0)]);
}

/** Opens the line of an import whose patients come in parts, because the file is too large to be held. */
export async function openLine(therapist: Therapist, importId: string, patients: number, at = new Date()): Promise<void> {
  assertMayWrite(therapist);
  await inTransaction(opened(therapist, importId, patients, at));
}

/** Puts some more patients into an open line; `from` is how many stand in it already. */
export async function lineUpMore(therapist: Therapist, importId: string, patients: readonly PatientFile[], from: number): Promise<void> {
  assertMayWrite(therapist);
  await inTransaction(inLine(therapist, importId, patients, from));
}

function opened(therapist: Therapist, importId: string, patients: number, at: Date): readonly Statement[] {
  return [
    (tx) => tx.update(dataImport).set({ state: 'open', text: null }).where(inReading(therapist, importId)).returning({ id: dataImport.id }),
    auditEntry(therapist, { action: 'import opened', subjectKind: 'import', subjectId: importId, detail: { patients } }, at),
  ];
}

function inLine(therapist: Therapist, importId: string, patients: readonly PatientFile[], before: number): readonly Statement[] {
  const items = patients.map((content, index) => ({
    id: crypto.randomUUID(),
    clinicId: therapist.clinicId,
    importId,
    position: before + index,
    state: 'waiting' as const,
    reference: content.details.reference,
    content,
  }));
  const chunks: Statement[] = [];
  for (let from = 0; from < items.length; from += CHUNK) {
    const rows = items.slice(from, from + CHUNK);
    chunks.push((tx) => tx.insert(importItem).values(rows).returning({ id: importItem.id }));
  }
  return chunks;
}

function inReading({ clinicId }: Therapist, importId: string) {
  return and(eq(dataImport.id, importId), eq(dataImport.clinicId, clinicId), eq(dataImport.state, 'reading'));
}

/**
 * Brings the next patients of an import in, each whole or not at all, at most so many; gives how many were looked at.
 *
 * Any number of processes may do so at once: an item is done by the write that brings its patient in. None is left when it gives 0; the
 * import is then closed.
 */
export async function bringInNext(therapist: Therapist, importId: string, most: number, at = new Date()): Promise<number> {
  assertMayWrite(therapist);
  const database = await getDatabase();
  const items = await database
    .select({ id: importItem.id })
    .from(importItem)
    .where(and(eq(importItem.clinicId, therapist.clinicId), eq(importItem.importId, importId), eq(importItem.state, 'waiting')))
    .orderBy(asc(importItem.position))
    .limit(most);
  const { failed } = await readEach(items, async (some) => {
    for (const { id } of some) {
      await takeItem(therapist, id, at);
      await letOthers();
    }
    return [];
  });
  for (const { id } of failed) await inTransaction([settle(therapist, id, { state: 'refused', words: UNREADABLE })]);
  if (items.length === 0) await close(therapist, importId, 'done');
  return items.length;
}

/** Said of an item whose row is not as it was written; the others of its file go on. */
const UNREADABLE = 'What was kept of this patient cannot be read any more. Bring the file in once more.';

async function takeItem(therapist: Therapist, id: string, at: Date): Promise<void> {
  const database = await getDatabase();
  const [item] = await database.select({ file: importItem.content }).from(importItem).where(stillWaiting(therapist, id));
  const file = item?.file;
  if (!file) return;
  for (let attempt = 0; attempt < TRIES; attempt++) {
    const brought = await bringIn(therapist, file, id, at);
    const steps = 'steps' in brought ? brought.steps : [];
    const noted = 'steps' in brought ? [linked(id, brought), noteOfItem(therapist, id, brought, at)] : [];
    const written = await inTransaction([settle(therapist, id, outcomeOf(brought)), ...steps, ...noted]);
    if (written.kind === 'written' || written.step === 0) return;
  }
  const words = 'Somebody else wrote to this record at the same time. Bring the file in once more.';
  await inTransaction([settle(therapist, id, { state: 'refused', words })]);
}

type Settled = Partial<Pick<typeof importItem.$inferSelect, 'state' | 'reference' | 'patientId' | 'added' | 'words'>>;

function outcomeOf(brought: BroughtIn): Settled {
  if (brought.kind === 'refused') return { state: 'refused', words: brought.words };
  if (brought.kind === 'same') return { state: 'same', patientId: brought.patientId, reference: null };
  const { kind, added, words } = brought;
  return { state: kind, added, words, reference: null };
}

/** Says whose record an item went into, once that record is there. */
function linked(id: string, { patientId }: { readonly patientId: string }): Statement {
  return (tx) => tx.update(importItem).set({ patientId }).where(eq(importItem.id, id)).returning({ id: importItem.id });
}

/** Settles a waiting item; its content goes, because it is in the record now or will never be. */
function settle(therapist: Therapist, id: string, settled: Settled): Statement {
  return (tx) =>
    tx
      .update(importItem)
      .set({ ...settled, content: null })
      .where(stillWaiting(therapist, id))
      .returning({ id: importItem.id });
}

function stillWaiting({ clinicId }: Therapist, id: string) {
  return and(eq(importItem.id, id), eq(importItem.clinicId, clinicId), eq(importItem.state, 'waiting'));
}

function noteOfItem(therapist: Therapist, id: string, brought: BroughtIn & { readonly patientId: string }, at: Date): Statement {
  const act: AuditedAct = {
    action: 'patient brought in',
    subjectKind: 'patient',
    subjectId: brought.patientId,
    detail: { item: id, how: brought.kind },
  };
  return auditEntry(therapist, act, at);
}

/** Stops an import: what waits is not brought in; what was brought in stays until it is undone. */
export async function stopImport(therapist: Therapist, importId: string): Promise<void> {
  assertMayWrite(therapist);
  const database = await getDatabase();
  const waiting = and(eq(importItem.clinicId, therapist.clinicId), eq(importItem.importId, importId), eq(importItem.state, 'waiting'));
  await whenFree(async () => database.update(importItem).set({ state: 'stopped', content: null }).where(waiting));
  await close(therapist, importId, 'stopped');
}

async function close(therapist: Therapist, importId: string, state: 'done' | 'stopped'): Promise<void> {
  const database = await getDatabase();
  const open = and(
    eq(dataImport.id, importId),
    eq(dataImport.clinicId, therapist.clinicId),
    inArray(dataImport.state, ['reading', 'open']),
  );
  await whenFree(async () => database.update(dataImport).set({ state, text: null }).where(open));
}
