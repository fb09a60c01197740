import { and, eq } from 'drizzle-orm';
import type { Stop } from '@/lib/cautions/hold';
import type { Piece } from '@/lib/record/patient-record';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { piece, pieceRevision } from '../schema/schema';
import { isDuplicate } from '../sql/is-duplicate';
import { assertMayWrite, type Therapist } from '../therapist';
import { type HandOver, type Held, handOverSteps, handsOver, stopsNotLifted, writeUnlessHeld } from './holds';
import { patientHead } from './patients';
import { type KeptPiece, pieceWithHistory } from './read-pieces';
import { keptVisit } from './read-visits';

/** A piece as a person writes it down: the lib piece, the visit it was cut from, and why it was retired. */
export type TypedPiece = Piece & { readonly cutFromVisitId: string | null; readonly retiredReason: string | null };

/** A piece and the form it came from; what was said of cautions where it is handed over. */
export type PieceEntry = { readonly submissionId: string; readonly piece: TypedPiece; readonly handOver?: HandOver };

/** How the saving of a new piece ended. A label stands once a patient: two of one order are two pieces. */
export type PieceSaved =
  | { readonly kind: 'saved' | 'already-saved'; readonly pieceId: string }
  | { readonly kind: 'label-taken' }
  | { readonly kind: 'not-found' };

/** How the correction of a piece ended; in a conflict both versions are there to be compared. */
export type PieceRevised = PieceSaved | Held | { readonly kind: 'conflict'; readonly theirs: KeptPiece; readonly yours: TypedPiece };

/** Adds a piece to a patient. The visit it was cut from must be that patient's. The same submission sent twice makes one. */
export async function savePiece(
  therapist: Therapist,
  entry: PieceEntry & { readonly patientId: string },
  at = new Date(),
): Promise<PieceSaved | Held> {
  assertMayWrite(therapist);
  if (!(await patientHead(therapist, entry.patientId)) || !(await isCutFrom(therapist, entry.patientId, entry.piece))) {
    return { kind: 'not-found' };
  }
  const { pieceId, statements } = newPiece(therapist, entry.patientId, entry, at);
  const notLifted = () => stopsNow(therapist, entry.patientId, null, entry, at);
  const written = await writeUnlessHeld(therapist, entry.patientId, notLifted, [
    ...statements,
    ...saidAt(therapist, entry.patientId, entry, at),
  ]);
  if (written.kind === 'held') return written;
  if (written.kind === 'written') return { kind: 'saved', pieceId };
  const saved = await pieceOfSubmission(therapist, entry.submissionId);
  return saved ? { kind: 'already-saved', pieceId: saved } : { kind: 'label-taken' };
}

/** Changes a piece (a step of its life, a correction) by a new revision with its reason. */
export async function revisePiece(
  therapist: Therapist,
  pieceId: string,
  expectedRevision: number,
  entry: PieceEntry & { readonly reason: string },
  at = new Date(),
): Promise<PieceRevised> {
  assertMayWrite(therapist);
  const before = await pieceWithHistory(therapist, pieceId);
  if (!before || !(await isCutFrom(therapist, before.current.patientId, entry.piece))) return { kind: 'not-found' };
  const { patientId } = before.current;
  const notLifted = () => stopsNow(therapist, patientId, before.current, entry, at);
  try {
    const written = await writeUnlessHeld(therapist, patientId, notLifted, [
      ...nextRevision(therapist, pieceId, expectedRevision, entry, at),
      ...saidAt(therapist, patientId, entry, at),
    ]);
    if (written.kind === 'held') return written;
    if (written.kind === 'written') return { kind: 'saved', pieceId };
  } catch (error) {
    if (isDuplicate(error)) return { kind: 'label-taken' };
    throw error;
  }
  const saved = await pieceOfSubmission(therapist, entry.submissionId);
  if (saved) return { kind: 'already-saved', pieceId: saved };
  const now = await pieceWithHistory(therapist, pieceId);
  return now ? { kind: 'conflict', theirs: now.current, yours: entry.piece } : { kind: 'not-found' };
}

/** The stops that hold a hand-over back, none where nothing is handed over or the same form was taken already. */
async function stopsNow(
  therapist: Therapist,
  patientId: string,
  before: Piece | null,
  { piece: after, handOver, submissionId }: PieceEntry,
  at: Date,
): Promise<readonly Stop[]> {
  if (!handsOver(before, after) || (await pieceOfSubmission(therapist, submissionId))) return [];
  return stopsNotLifted(therapist, patientId, after, handOver?.lifted ?? [], at);
}

function saidAt(
  therapist: Therapist,
  patientId: string,
  { piece: { piece: label }, handOver }: PieceEntry,
  at: Date,
): readonly Statement[] {
  return handOver ? handOverSteps(therapist, patientId, `piece ${label}`, handOver, at) : [];
}

/** The steps that add a piece: its head, its first revision, its note in the audit. */
export function newPiece(
  therapist: Therapist,
  patientId: string,
  entry: PieceEntry,
  at: Date,
): { readonly pieceId: string; readonly statements: readonly Statement[] } {
  const pieceId = crypto.randomUUID();
  const head = { id: pieceId, clinicId: therapist.clinicId, patientId, label: entry.piece.piece, revision: 1 };
  const statements: Statement[] = [
    (tx) => tx.insert(piece).values(head).onConflictDoNothing().returning({ id: piece.id }),
    insertRevision(therapist, pieceId, 1, entry, null, at),
    auditEntry(therapist, { action: 'piece added', subjectKind: 'piece', subjectId: pieceId, detail: { patientId } }, at),
  ];
  return { pieceId, statements };
}

/** The steps that give a piece its next revision; the first touches no row when somebody else was faster. */
export function nextRevision(
  therapist: Therapist,
  pieceId: string,
  expectedRevision: number,
  entry: PieceEntry & { readonly reason: string },
  at: Date,
): readonly Statement[] {
  const next = expectedRevision + 1;
  return [
    (tx) =>
      tx
        .update(piece)
        .set({ revision: next, label: entry.piece.piece })
        .where(and(eq(piece.id, pieceId), eq(piece.clinicId, therapist.clinicId), eq(piece.revision, expectedRevision)))
        .returning({ id: piece.id }),
    insertRevision(therapist, pieceId, next, entry, entry.reason, at),
    auditEntry(therapist, { action: 'piece revised', subjectKind: 'piece', subjectId: pieceId, detail: { revision: next } }, at),
  ];
}

async function isCutFrom(therapist: Therapist, patientId: string, entry: TypedPiece): Promise<boolean> {
  if (entry.cutFromVisitId === null) return true;
  return (await keptVisit(therapist, entry.cutFromVisitId))?.patientId === patientId;
}

function insertRevision(
  therapist: Therapist,
  pieceId: string,
  number: number,
  entry: PieceEntry,
  reason: string | null,
  at: Date,
): Statement {
  const { piece: label, ...rest } = entry.piece;
  const signature = { author: therapist.id, at, reason, submissionId: entry.submissionId };
  const row = { ...rest, ...signature, label, id: crypto.randomUUID(), clinicId: therapist.clinicId, pieceId, number };
  return (tx) => tx.insert(pieceRevision).values(row).onConflictDoNothing().returning({ id: pieceRevision.id });
}

/** The piece that a submission made or changed, if it did: tells a form sent twice from a new one. */
export async function pieceOfSubmission(therapist: Therapist, submissionId: string): Promise<string | undefined> {
  const database = await getDatabase();
  const [found] = await database
    .select({ pieceId: pieceRevision.pieceId })
    .from(pieceRevision)
    .where(and(eq(pieceRevision.clinicId, therapist.clinicId), eq(pieceRevision.submissionId, submissionId)));
  return found?.pieceId;
}
