import { and, eq } from 'drizzle-orm';
import type { Ladder } from '@/lib/ladder/ladder';
import type { Visit } from '@/lib/record/patient-record';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { ladder, repeatTaping, visit, visitRevision } from '../schema/schema';
import type { Database } from '../sql/database';
import { readyInsert } from '../sql/ready-query';
import { assertMayWrite, type Therapist } from '../therapist';
import { type AfterEnd, writeUnlessEnded } from './course';
import { type KeptVisit, keptVisit } from './read-visits';
import { repeatRows } from './repeat-tapings';

/** A ladder as the sheet hands it over: beside the girths, the interval that was typed at set-up. */
export type TypedLadder = Ladder & { readonly intervalText?: string | null };

/** A visit as the sheet hands it over. */
export type TypedVisit = Omit<Visit, 'ladders'> & { readonly ladders: readonly TypedLadder[] };

/** Questions of the sheet that were shown and left open, in words: they go into the log beside the save. */
type LeftOpen = { readonly leftOpen?: readonly string[] };

/** How the saving of a new visit ended; `another-patient`: the form was sent before, and made another visit than this one. */
export type VisitSaved =
  | { readonly kind: 'saved' | 'already-saved'; readonly visitId: string }
  | { readonly kind: 'not-found' }
  | { readonly kind: 'another-patient' }
  | AfterEnd;

/** How the correction of a visit ended; in a conflict both versions are there to be compared. */
export type VisitRevised = VisitSaved | { readonly kind: 'conflict'; readonly theirs: KeptVisit; readonly yours: TypedVisit };

/** Saves a new visit with its ladders, whole or not at all. The same submission sent twice makes one visit. */
export async function saveVisit(
  therapist: Therapist,
  entry: { readonly patientId: string; readonly submissionId: string; readonly visit: TypedVisit } & LeftOpen,
  at = new Date(),
): Promise<VisitSaved> {
  assertMayWrite(therapist);
  const { visitId, statements } = newVisit(therapist, entry, at);
  const written = await writeUnlessEnded(therapist, entry.patientId, entry.visit.day, statements);
  if (written.kind === 'after-end' || written.kind === 'not-found') return written;
  if (written.kind === 'written') return { kind: 'saved', visitId };
  const saved = await submitted(await getDatabase(), therapist, entry.submissionId);
  if (!saved) return { kind: 'not-found' };
  return saved.patientId === entry.patientId ? { kind: 'already-saved', visitId: saved.visitId } : { kind: 'another-patient' };
}

/** The steps that add a visit: its head, its first revision with its ladders, its note in the audit. */
export function newVisit(
  therapist: Therapist,
  entry: { readonly patientId: string; readonly submissionId: string; readonly visit: TypedVisit } & LeftOpen,
  at: Date,
): { readonly visitId: string; readonly statements: readonly Statement[] } {
  const visitId = crypto.randomUUID();
  const head = { id: visitId, clinicId: therapist.clinicId, patientId: entry.patientId, day: entry.visit.day, revision: 1 };
  const detail = { patientId: entry.patientId, ...openIn(entry) };
  const statements: Statement[] = [
    (tx) => readyInsert(tx, visit, [head]),
    ...insertRevision(therapist, visitId, 1, entry, null, at),
    auditEntry(therapist, { action: 'visit saved', subjectKind: 'visit', subjectId: visitId, detail }, at),
  ];
  return { visitId, statements };
}

/** Corrects a visit by a new revision with its reason. A newer revision by someone else is answered as a conflict; nothing is written. */
export async function reviseVisit(
  therapist: Therapist,
  visitId: string,
  expectedRevision: number,
  entry: { readonly submissionId: string; readonly visit: TypedVisit; readonly reason: string } & LeftOpen,
  at = new Date(),
): Promise<VisitRevised> {
  assertMayWrite(therapist);
  const before = await keptVisit(therapist, visitId);
  if (!before) return { kind: 'not-found' };
  const next = expectedRevision + 1;
  const written = await writeUnlessEnded(therapist, before.patientId, entry.visit.day, [
    (tx) =>
      tx
        .update(visit)
        .set({ revision: next, day: entry.visit.day })
        .where(and(eq(visit.id, visitId), eq(visit.clinicId, therapist.clinicId), eq(visit.revision, expectedRevision)))
        .returning({ id: visit.id }),
    ...insertRevision(therapist, visitId, next, entry, entry.reason, at),
    auditEntry(
      therapist,
      { action: 'visit revised', subjectKind: 'visit', subjectId: visitId, detail: { revision: next, ...openIn(entry) } },
      at,
    ),
  ]);
  if (written.kind === 'after-end' || written.kind === 'not-found') return written;
  if (written.kind === 'written') return { kind: 'saved', visitId };
  const saved = await submitted(await getDatabase(), therapist, entry.submissionId);
  if (saved) return saved.visitId === visitId ? { kind: 'already-saved', visitId } : { kind: 'another-patient' };
  const theirs = await keptVisit(therapist, visitId);
  return theirs ? { kind: 'conflict', theirs, yours: entry.visit } : { kind: 'not-found' };
}

function openIn({ leftOpen }: LeftOpen): { readonly leftOpen?: readonly string[] } {
  return leftOpen && leftOpen.length > 0 ? { leftOpen } : {};
}

function insertRevision(
  therapist: Therapist,
  visitId: string,
  number: number,
  entry: { readonly submissionId: string; readonly visit: TypedVisit },
  reason: string | null,
  at: Date,
): readonly Statement[] {
  const revisionId = crypto.randomUUID();
  const { ladders, ...measured } = entry.visit;
  const signature = { author: therapist.id, at, reason, submissionId: entry.submissionId };
  const row = { ...measured, ...signature, id: revisionId, clinicId: therapist.clinicId, visitId, number };
  const rows = ladders.map((one, position) => ({
    ...one,
    id: crypto.randomUUID(),
    visitRevisionId: revisionId,
    position,
    intervalText: one.intervalText ?? null,
  }));
  const revision: Statement = (tx) => readyInsert(tx, visitRevision, [row], { orNone: true });
  const repeats = repeatRows(therapist.clinicId, { visitId, revision: number, day: entry.visit.day }, ladders);
  return [
    revision,
    ...(rows.length === 0 ? [] : ([(tx) => readyInsert(tx, ladder, rows)] satisfies Statement[])),
    ...(repeats.length === 0 ? [] : ([(tx) => readyInsert(tx, repeatTaping, repeats)] satisfies Statement[])),
  ];
}

async function submitted(
  database: Database,
  therapist: Therapist,
  submissionId: string,
): Promise<{ readonly visitId: string; readonly patientId: string } | undefined> {
  const [found] = await database
    .select({ visitId: visitRevision.visitId, patientId: visit.patientId })
    .from(visitRevision)
    .innerJoin(visit, eq(visit.id, visitRevision.visitId))
    .where(and(eq(visitRevision.clinicId, therapist.clinicId), eq(visitRevision.submissionId, submissionId)));
  return found;
}

/** The visit that a submission made, if it made one: tells a draft that was finished from one that was not. */
export async function visitOfSubmission(therapist: Therapist, submissionId: string): Promise<string | undefined> {
  return (await submitted(await getDatabase(), therapist, submissionId))?.visitId;
}
