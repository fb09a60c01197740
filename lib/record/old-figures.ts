import type { Policy } from '../limits/policy';
import { type CalendarDay, daysBetween, showDay } from '../units/calendar-day';
import { garmentSet, isOfSet } from './garment-needs';
import type { PatientRecord, Piece } from './patient-record';

/**
 * That the newest figures of a piece's limb are too old for an order of a day, in words; undefined where they are not, or nothing was measured.
 *
 * The one sentence of the dates and of the plan. Source: the clinic's limit `orderLadderDays`.
 * Example: `the ladder of 14 Oct 2026 is 61 days old by then; an order asks for one of 42 days at most`.
 */
export function oldFiguresOn(record: PatientRecord, piece: Piece, day: CalendarDay, { orderLadderDays }: Policy): string | undefined {
  const taped = newestDay(record, piece);
  const days = taped ? daysBetween(taped, day) : 0;
  if (!taped || days <= orderLadderDays) return undefined;
  return piece.covers === 'measures'
    ? `the measures of ${showDay(taped)} are ${days} days old by then; an order asks for ones of ${orderLadderDays} days at most`
    : `the ladder of ${showDay(taped)} is ${days} days old by then; an order asks for one of ${orderLadderDays} days at most`;
}

/** The last day on which the limb of a piece was taped, or a named measure of its set was taken. */
function newestDay({ visits }: PatientRecord, piece: Piece): CalendarDay | undefined {
  const { limb, side, garment } = piece;
  if (piece.covers !== 'measures')
    return visits.findLast(({ ladders }) => ladders.some((one) => one.limb === limb && one.side === side))?.day;
  const set = garment && garmentSet(garment, piece);
  return set ? visits.findLast(({ measures }) => measures?.some((taken) => isOfSet(set, taken)))?.day : undefined;
}
