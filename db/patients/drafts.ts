import { and, eq } from 'drizzle-orm';
import { getDatabase } from '../client';
import { draft } from '../schema/schema';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { patientHead } from './patients';

/** A form that is not finished, as last kept. `version` counts its savings from 1. */
export type Draft = { readonly content: unknown; readonly version: number; readonly updatedAt: Date };

/** The draft was kept, or another window of the same person kept a newer one, which is shown. */
export type DraftKept = { readonly kind: 'kept'; readonly version: number } | { readonly kind: 'newer'; readonly draft: Draft | undefined };

/** The draft this person keeps of this kind of form for this patient. */
export async function draftOf(therapist: Therapist, patientId: string, kind: string): Promise<Draft | undefined> {
  const database = await getDatabase();
  const [found] = await database
    .select({ content: draft.content, version: draft.version, updatedAt: draft.updatedAt })
    .from(draft)
    .where(own(therapist, patientId, kind));
  return found;
}

/** Keeps a draft over the version the form started from (0 for none). Not a record: drafts leave no audit row. */
export async function keepDraft(
  therapist: Therapist,
  patientId: string,
  kind: string,
  from: { readonly version: number; readonly content: unknown },
  at = new Date(),
): Promise<DraftKept> {
  assertMayWrite(therapist);
  if (!(await patientHead(therapist, patientId))) return { kind: 'newer', draft: undefined };
  const version = from.version + 1;
  const kept = { content: from.content, version, updatedAt: at };
  const row = { ...kept, id: crypto.randomUUID(), clinicId: therapist.clinicId, patientId, author: therapist.id, kind };
  const written = await inTransaction([
    (tx) =>
      from.version === 0
        ? tx.insert(draft).values(row).onConflictDoNothing().returning({ id: draft.id })
        : tx
            .update(draft)
            .set(kept)
            .where(and(own(therapist, patientId, kind), eq(draft.version, from.version)))
            .returning({ id: draft.id }),
  ]);
  if (written.kind === 'written') return { kind: 'kept', version };
  return { kind: 'newer', draft: await draftOf(therapist, patientId, kind) };
}

/** Lets the draft go, once its form is saved or given up. */
export async function discardDraft(therapist: Therapist, patientId: string, kind: string): Promise<void> {
  await inTransaction([
    (tx) =>
      tx
        .delete(draft)
        .where(own(therapist, patientId, kind))
        .returning({ id: draft.id }),
  ]);
}

function own(therapist: Therapist, patientId: string, kind: string) {
  return and(eq(draft.clinicId, therapist.clinicId), eq(draft.patientId, patientId), eq(draft.author, therapist.id), eq(draft.kind, kind));
}
