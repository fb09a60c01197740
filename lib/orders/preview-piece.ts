import { analysePatient, type PatientAnalysis } from '../analysis/analyse-patient';
import type { AnalysedPiece } from '../analysis/analyse-piece';
import { LIMBS, type LimbKind } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { isNoAnswer } from '../outcome';
import type { GarmentSpec } from '../record/garment-catalogue';
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
 * On another limb of the kind the cover is the same; on a limb of another kind it is taken from its far landmark to the trunk.
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
    const covers =
      limb === cut.limb && typeof cut.covers.from === 'string' && typeof cut.covers.to === 'string' ? cut.covers : wholeOf(limb);
    return { limb, side, proposed: proposedRoom(previewPiece(record, { ...cut, limb, side, covers }, policy, today).piece) };
  });
}

function wholeOf(limb: LimbKind): Order['covers'] {
  const [from, , to] = LIMBS[limb].landmarks;
  return { from, to };
}

/** The room to let out that the engine proposes for such a piece, middle and 90 %, mm, and by place; or why it cannot say. */
export function proposedRoom(piece: AnalysedPiece): AllowanceDecision['proposed'] {
  if (isNoAnswer(piece.room)) return piece.room;
  const { middleMm, highMm, places } = piece.room;
  return { middleMm, highMm, places: places.map((one) => ({ placeMm: one.placeMm, middleMm: one.middleMm })) };
}
