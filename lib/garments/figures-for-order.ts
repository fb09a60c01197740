import { limbInWords } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { garmentSet, isOfSet } from '../record/garment-needs';
import type { PatientRecord, Piece } from '../record/patient-record';
import { type CalendarDay, daysBetween, showDay } from '../units/calendar-day';

/** Figures of a piece that are too old for its next order. */
export type OldFigures = {
  /** `the ladder of 27 Nov 2026 is 52 days old by then; an order asks for one of 42 days at most` */
  readonly why: string;
  /** The same as an advice before the order: `Measure the right leg first: the ladder of …` */
  readonly first: string;
};

/**
 * Whether the newest figures of a piece will be too old when its next order is sent, on the day by which to order or, where that day is over, today.
 *
 * Shape: the record, a piece, the day by which to order, today; undefined where they are young enough or nothing was measured.
 * Source: `orderLadderDays`. Example: taped 27 Nov 2026, order by 18 Jan 2027, 42 days: 52 days old by then.
 */
export function tooOldToOrder(
  record: PatientRecord,
  piece: Piece,
  orderBy: CalendarDay,
  { orderLadderDays }: Policy,
  today: CalendarDay,
): OldFigures | undefined {
  const taped = newestFigures(record, piece);
  if (!taped) return undefined;
  const days = daysBetween(taped, orderBy < today ? today : orderBy);
  if (days <= orderLadderDays) return undefined;
  const byMeasures = piece.covers === 'measures';
  const old = `the ${byMeasures ? 'measures' : 'ladder'} of ${showDay(taped)} ${byMeasures ? 'are' : 'is'} ${days} days old ${orderBy > today ? 'by then' : 'today'}`;
  const why = `${old}; an order asks for ${byMeasures ? 'ones' : 'one'} of ${orderLadderDays} days at most`;
  return { why, first: `Measure the ${limbInWords(piece.limb, piece.side)} first: ${why}.` };
}

/** The newest day with the figures that a piece is made to: the ladder of its limb, or named measures of its set. */
function newestFigures({ visits }: PatientRecord, { limb, side, garment, covers }: Piece): CalendarDay | undefined {
  if (covers !== 'measures')
    return visits.findLast(({ ladders }) => ladders.some((ladder) => ladder.limb === limb && ladder.side === side))?.day;
  const set = garment && garmentSet(garment, { limb, side });
  return set ? visits.findLast(({ measures }) => measures?.some((taken) => isOfSet(set, taken)))?.day : undefined;
}
