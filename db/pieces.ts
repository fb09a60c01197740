import { and, eq } from 'drizzle-orm';
import type { Piece } from '@/lib/record/patient-record';
import { noteOf } from './audit';
import { getDatabase } from './client';
import { patientHead } from './patients';
import { type KeptPiece, pieceWithHistory } from './read-pieces';
import { keptVisit } from './read-visits';
import { piece, pieceRevision } from './schema';
import { assertMayWrite, type Therapist } from './therapist';
import { workChanged } from './work-changed';
import { type Statement, writeTogether } from './write-together';

/** A piece as a person writes it down: the lib piece, the visit it was cut from, and why it was retired. */
export type TypedPiece = Piece & { readonly cutFromVisitId: string | null; readonly retiredReason: string | null };

/** How the saving of a new piece ended. */
export type PieceSaved = { readonly kind: 'saved' | 'already-saved'; readonly pieceId: string } | { readonly kind: 'not-found' };

/** How the correction of a piece ended; in a conflict both versions are there to be compared. */
export type PieceRevised = PieceSaved | { readonly kind: 'conflict'; readonly theirs: KeptPiece; readonly yours: TypedPiece };

/** Adds a piece to a patient. The visit it was cut from must be that patient's. The same submission sent twice makes one. */
export async function savePiece(
  therapist: Therapist,
  entry: { readonly patientId: string; readonly submissionId: string; readonly piece: TypedPiece },
  at = new Date(),
): Promise<PieceSaved> {
  assertMayWrite(therapist);
  if (!(await patientHead(therapist, entry.patientId)) || !(await isCutFrom(therapist, entry.patientId, entry.piece))) {
    return { kind: 'not-found' };
  }
  const pieceId = crypto.randomUUID();
  const head = { id: pieceId, clinicId: therapist.clinicId, patientId: entry.patientId, label: entry.piece.piece, revision: 1 };
  const written = await writeTogether([
    (tx) => tx.insert(piece).values(head).returning({ id: piece.id }),
    insertRevision(therapist, pieceId, 1, entry, null, at),
    workChanged(therapist, entry.patientId),
    noteOf(therapist, { action: 'piece added', subjectKind: 'piece', subjectId: pieceId, detail: { patientId: entry.patientId } }, at),
  ]);
  if (written.kind === 'written') return { kind: 'saved', pieceId };
  const saved = await submitted(therapist, entry.submissionId);
  return saved ? { kind: 'already-saved', pieceId: saved } : { kind: 'not-found' };
}

/** Changes a piece (first worn, retired, a correction) by a new revision with its reason. */
export async function revisePiece(
  therapist: Therapist,
  pieceId: string,
  expectedRevision: number,
  entry: { readonly submissionId: string; readonly piece: TypedPiece; readonly reason: string },
  at = new Date(),
): Promise<PieceRevised> {
  assertMayWrite(therapist);
  const before = await pieceWithHistory(therapist, pieceId);
  if (!before || !(await isCutFrom(therapist, before.current.patientId, entry.piece))) return { kind: 'not-found' };
  const next = expectedRevision + 1;
  const written = await writeTogether([
    (tx) =>
      tx
        .update(piece)
        .set({ revision: next, label: entry.piece.piece })
        .where(and(eq(piece.id, pieceId), eq(piece.clinicId, therapist.clinicId), eq(piece.revision, expectedRevision)))
        .returning({ id: piece.id }),
    insertRevision(therapist, pieceId, next, entry, entry.reason, at),
    workChanged(therapist, before.current.patientId),
    noteOf(therapist, { action: 'piece revised', subjectKind: 'piece', subjectId: pieceId, detail: { revision: next } }, at),
  ]);
  if (written.kind === 'written') return { kind: 'saved', pieceId };
  const saved = await submitted(therapist, entry.submissionId);
  if (saved) return { kind: 'already-saved', pieceId: saved };
  const now = await pieceWithHistory(therapist, pieceId);
  return now ? { kind: 'conflict', theirs: now.current, yours: entry.piece } : { kind: 'not-found' };
}

async function isCutFrom(therapist: Therapist, patientId: string, entry: TypedPiece): Promise<boolean> {
  if (entry.cutFromVisitId === null) return true;
  return (await keptVisit(therapist, entry.cutFromVisitId))?.patientId === patientId;
}

function insertRevision(
  therapist: Therapist,
  pieceId: string,
  number: number,
  entry: { readonly submissionId: string; readonly piece: TypedPiece },
  reason: string | null,
  at: Date,
): Statement {
  const { piece: label, ...rest } = entry.piece;
  const signature = { author: therapist.id, at, reason, submissionId: entry.submissionId };
  const row = { ...rest, ...signature, label, id: crypto.randomUUID(), clinicId: therapist.clinicId, pieceId, number };
  return (tx) => tx.insert(pieceRevision).values(row).onConflictDoNothing().returning({ id: pieceRevision.id });
}

async function submitted(therapist: Therapist, submissionId: string): Promise<string | undefined> {
  const database = await getDatabase();
  const [found] = await database
    .select({ pieceId: pieceRevision.pieceId })
    .from(pieceRevision)
    .where(and(eq(pieceRevision.clinicId, therapist.clinicId), eq(pieceRevision.submissionId, submissionId)));
  return found?.pieceId;
}
