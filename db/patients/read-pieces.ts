import { and, asc, eq, gt, gte, inArray, isNull, like, lt, sql } from 'drizzle-orm';
import type { Piece } from '@/lib/record/patient-record';
import type { PieceLife } from '@/lib/record/piece-life';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { dueDate, patient, piece, pieceRevision, visit } from '../schema/schema';
import type { Therapist } from '../therapist';
import { isNotDead } from './course';
import { escaped } from './find-patients';
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

/** A piece in a list, with the day to order the next one by, where one stands. */
export type ListedPiece = KeptPiece & { readonly orderBy: CalendarDay | null };

/** What of the list is wanted: words of name or reference, order-by days in a range, or only what is still to come. */
export type PiecesWanted = {
  readonly words?: string;
  readonly from?: CalendarDay;
  readonly before?: CalendarDay;
  readonly toCome?: boolean;
};

/**
 * Pieces of the clinic that are not retired, by the day to order the next one by, those without one last.
 *
 * The day is the stored one of the schedule, moved where somebody moved it; it is as fresh as the worklist. Cost: one query of at most `most` rows.
 */
export async function piecesByOrderDay(
  therapist: Therapist,
  { words = '', from, before, toCome = false }: PiecesWanted,
  most = 200,
): Promise<readonly ListedPiece[]> {
  const database = await getDatabase();
  const sought = words.toLowerCase().split(/\s+/).filter(Boolean);
  return database
    .select({ ...pieceColumns, orderBy: dueDate.day })
    .from(piece)
    .innerJoin(pieceRevision, isCurrent)
    .innerJoin(patient, eq(patient.id, piece.patientId))
    .leftJoin(visit, cutVisit)
    .leftJoin(
      dueDate,
      and(eq(dueDate.patientId, piece.patientId), eq(dueDate.key, sql`'order-by:' || ${pieceRevision.label}`), eq(dueDate.state, 'open')),
    )
    .where(
      and(
        eq(piece.clinicId, therapist.clinicId),
        isNull(pieceRevision.retired),
        isNotDead(piece.patientId),
        ...sought.map((word) => like(patient.searchText, `%${escaped(word)}%`)),
        from ? gte(dueDate.day, from) : undefined,
        before ? lt(dueDate.day, before) : undefined,
        toCome ? isNull(pieceRevision.firstWorn) : undefined,
      ),
    )
    .orderBy(sql`case when ${dueDate.day} is null then 1 else 0 end`, asc(dueDate.day), asc(piece.id))
    .limit(most);
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
