import { fittedBefore } from '../garments/of-one-order';
import type { Policy } from '../limits/policy';
import type { PatientRecord, Piece } from '../record/patient-record';
import { type CalendarDay, showDay } from '../units/calendar-day';
import { orderQuestions } from './order-questions';

/**
 * What stands against making a piece that was held back: that none of its order was kept at its first fit, and what would be asked about the same
 * order if it left today: the ladder’s age, a newer ladder, a limb that changed since, cautions.
 *
 * Questions, not refusals: the release says in words why it is made all the same. Shape: as `orderQuestions`; sentences.
 * Example: fitted and kept a week after the order, nothing taped since: none.
 */
export function againstRelease(piece: Piece, record: PatientRecord, policy: Policy, today: CalendarDay): string[] {
  const fitted = fittedBefore(piece, record.pieces);
  const unfit =
    fitted === undefined
      ? ['No piece of its order was kept at a first fit yet.']
      : fitted.outcome === 'remake'
        ? [
            `Piece ${fitted.piece} of its order was fitted ${showDay(fitted.day)} and is made again: the same figures may be wrong for this one.`,
          ]
        : [];
  const garment = piece.garment ?? null;
  return [...unfit, ...orderQuestions(record, { ...piece, garment }, policy, today).map(({ message }) => message)];
}
