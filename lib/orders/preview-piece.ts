import { analysePatient, type PatientAnalysis } from '../analysis/analyse-patient';
import type { AnalysedPiece } from '../analysis/analyse-piece';
import type { GarmentSpec } from '../garment-forms/garment-catalogue';
import { onLimb } from '../garments/limbs-of-set';
import type { Policy } from '../limits/policy';
import { isNoAnswer } from '../outcome';
import type { AllowanceDecision, Order } from '../record/order';
import type { PatientRecord, Piece } from '../record/patient-record';
import { type CutPointer, visitCutFrom } from '../record/visit-cut-from';
import type { CalendarDay } from '../units/calendar-day';
import { furtherLadders } from './order-set';

/** What decides how a piece of an order would sit. */
export type OrderCut = Pick<Order, 'limb' | 'side' | 'cutFrom' | 'covers' | 'reductionPct' | 'convention' | 'lifeDays' | 'leadDays'> &
  CutPointer & { readonly garment?: GarmentSpec | null };

/**
 * The analysis of a patient whose only piece were the one an order asks for, cut from its ladder and not worn yet.
 *
 * Shape: a record, the order's cut, the policy, today. What the engine says of a piece can so be asked before it exists.
 */
export function previewPiece(
  record: PatientRecord,
  cut: OrderCut,
  policy: Policy,
  today: CalendarDay,
): { readonly analysis: PatientAnalysis; readonly piece: AnalysedPiece } {
  const piece: Piece = { ...cut, piece: 'ordered', allowance: null, firstWorn: null, retired: null };
  const analysis = analysePatient({ ...record, pieces: [piece] }, policy, today);
  return { analysis, piece: analysis.pieces[0] as AnalysedPiece };
}

/**
 * The room to let out that the engine proposes along each further ladder of the order's set, as if the piece lay on that limb too.
 *
 * Its cover there is that of `onLimb`.
 * Shape: as `previewPiece`; one entry a ladder that the visit has. Example: tights: the other leg.
 */
export function furtherRoom(
  record: PatientRecord,
  cut: OrderCut & Pick<Order, 'garment'>,
  policy: Policy,
  today: CalendarDay,
): NonNullable<AllowanceDecision['further']> {
  const visits = record.visits.map((visit) => ({ visit }));
  const visit = visitCutFrom(visits, cut)?.visit;
  return (visit ? furtherLadders(cut, visit) : []).map(({ limb, side }) => {
    return {
      limb,
      side,
      proposed: proposedRoom(previewPiece(record, { ...onLimb(cut, { limb, side }), garment: null }, policy, today).piece),
    };
  });
}

/** The room to let out that the engine proposes for such a piece, middle and 90 %, mm, and by place; or why it cannot say. */
export function proposedRoom(piece: AnalysedPiece): AllowanceDecision['proposed'] {
  if (isNoAnswer(piece.room)) return piece.room;
  const { middleMm, highMm, places } = piece.room;
  return { middleMm, highMm, places: places.map((one) => ({ placeMm: one.placeMm, middleMm: one.middleMm })) };
}
