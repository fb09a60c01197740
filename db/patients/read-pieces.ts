import { and, asc, eq, gt, inArray, isNull, sql } from 'drizzle-orm';
import type { Piece } from '@/lib/record/patient-record';
import type { PieceLife } from '@/lib/record/piece-life';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { piece, pieceRevision, visit } from '../schema/schema';
import type { Therapist } from '../therapist';
import { isNotDead } from './course';
import { REVOKED } from './revoked';

/** A piece as it stands now, or one of its earlier revisions. `piece` is its label. */
export type KeptPiece = Piece &
  PieceLife & {
    readonly pieceId: string;
    readonly patientId: string;
    readonly revision: number;
    readonly firstFit: CalendarDay | null;
    readonly cutFromVisitId: string | null;
    readonly retiredReason: string | null;
    readonly author: string;
    readonly at: Date;
    readonly reason: string | null;
  };

const pieceColumns = {
  pieceId: piece.id,
  patientId: piece.patientId,
  revision: pieceRevision.number,
  piece: pieceRevision.label,
  limb: pieceRevision.limb,
  side: pieceRevision.side,
  covers: pieceRevision.covers,
  cutFromVisitId: pieceRevision.cutFromVisitId,
  cutFrom: sql<CalendarDay>`coalesce(${visit.day}, ${pieceRevision.cutFrom})`,
  reductionPct: pieceRevision.reductionPct,
  convention: pieceRevision.convention,
  allowance: pieceRevision.allowance,
  firstFit: pieceRevision.firstFit,
  firstWorn: pieceRevision.firstWorn,
  lifeDays: pieceRevision.lifeDays,
  leadDays: pieceRevision.leadDays,
  retired: pieceRevision.retired,
  retiredReason: pieceRevision.retiredReason,
  orderId: pieceRevision.orderId,
  garment: pieceRevision.garment,
  expected: pieceRevision.expected,
  delivered: pieceRevision.delivered,
  fit: pieceRevision.fit,
  wearIn: pieceRevision.wearIn,
  kept: pieceRevision.kept,
  alterations: pieceRevision.alterations,
  retiredAs: pieceRevision.retiredAs,
  author: pieceRevision.author,
  at: pieceRevision.at,
  reason: pieceRevision.reason,
};

/** The visit a piece is made to, where it points at one: its day is the day the visit has now. */
const cutVisit = eq(visit.id, pieceRevision.cutFromVisitId);

const isCurrent = and(eq(pieceRevision.pieceId, piece.id), eq(pieceRevision.number, piece.revision));

/** Every piece of these patients as it stands now, by the day it was cut from and its label: one query. */
export async function piecesOfPatients(therapist: Therapist, patientIds: readonly string[]): Promise<readonly KeptPiece[]> {
  if (patientIds.length === 0) return [];
  const database = await getDatabase();
  const rows = await database
    .select(pieceColumns)
    .from(piece)
    .innerJoin(pieceRevision, isCurrent)
    .leftJoin(visit, cutVisit)
    .where(and(eq(piece.clinicId, therapist.clinicId), inArray(piece.patientId, [...patientIds])))
    .orderBy(asc(pieceRevision.cutFrom), asc(piece.id));
  return rows.sort((one, other) => one.cutFrom.localeCompare(other.cutFrom) || one.piece.localeCompare(other.piece));
}

/** Pieces of the whole clinic that are not retired and whose patient lives, oldest first worn first; not yet worn last. */
export async function piecesInUse(therapist: Therapist, most = 200): Promise<readonly KeptPiece[]> {
  const database = await getDatabase();
  const rows = await database
    .select(pieceColumns)
    .from(piece)
    .innerJoin(pieceRevision, isCurrent)
    .leftJoin(visit, cutVisit)
    .where(and(eq(piece.clinicId, therapist.clinicId), isNull(pieceRevision.retired), isNotDead(piece.patientId)))
    .orderBy(asc(pieceRevision.cutFrom), asc(piece.id))
    .limit(most);
  return rows.sort((one, other) => (one.firstWorn ?? '9999').localeCompare(other.firstWorn ?? '9999'));
}

/** One piece with every revision it has had, oldest first; undefined when the clinic has none of that id. */
export async function pieceWithHistory(
  therapist: Therapist,
  pieceId: string,
): Promise<{ readonly current: KeptPiece; readonly revisions: readonly KeptPiece[] } | undefined> {
  const database = await getDatabase();
  const revisions = await database
    .select(pieceColumns)
    .from(piece)
    .innerJoin(pieceRevision, eq(pieceRevision.pieceId, piece.id))
    .leftJoin(visit, cutVisit)
    .where(and(eq(piece.clinicId, therapist.clinicId), eq(piece.id, pieceId), gt(piece.revision, REVOKED)))
    .orderBy(asc(pieceRevision.number));
  const current = revisions.at(-1);
  return current && { current, revisions };
}
