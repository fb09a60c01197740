import { analysePatient, type PatientAnalysis } from '../analysis/analyse-patient';
import type { AnalysedPiece } from '../analysis/analyse-piece';
import type { Policy } from '../limits/policy';
import { isNoAnswer } from '../outcome';
import type { GarmentSpec } from '../record/garment-catalogue';
import type { AllowanceDecision, Order } from '../record/order';
import type { PatientRecord, Piece } from '../record/patient-record';
import type { CutPointer } from '../record/visit-cut-from';
import type { CalendarDay } from '../units/calendar-day';

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

/** The room to let out that the engine proposes for such a piece, middle and 90 %, mm, and by place; or why it cannot say. */
export function proposedRoom(piece: AnalysedPiece): AllowanceDecision['proposed'] {
  if (isNoAnswer(piece.room)) return piece.room;
  const { middleMm, highMm, places } = piece.room;
  return { middleMm, highMm, places: places.map((one) => ({ placeMm: one.placeMm, middleMm: one.middleMm })) };
}
