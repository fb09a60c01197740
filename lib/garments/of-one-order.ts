import type { Piece } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';
import { isHeldBack } from './piece-stage';

/**
 * What became of the pieces of the same order that were made first: one of them was kept at its first fit, or one is made again and none was kept.
 *
 * Shape: a piece that is held back, every piece of the patient; the piece that tells and its day; undefined while none has been fitted, and for a piece
 * that is not held back. Of several that were kept the first counts. A piece that went back to be altered says nothing until it is fitted again.
 * Example: piece 3 of two was kept on 14 March: piece 4 can be made.
 */
export function fittedBefore(
  held: Piece,
  all: readonly Piece[],
): { readonly piece: string; readonly day: CalendarDay; readonly outcome: 'keep' | 'remake' } | undefined {
  if (!isHeldBack(held) || !held.orderId) return undefined;
  const fitted = all.flatMap((one) =>
    one !== held && one.orderId === held.orderId && one.fit ? [{ piece: one.piece, day: one.fit.day, outcome: one.fit.outcome }] : [],
  );
  const first = (outcome: 'keep' | 'remake') => {
    const [found] = fitted.filter((one) => one.outcome === outcome).sort((one, other) => one.day.localeCompare(other.day));
    return found && { ...found, outcome };
  };
  return first('keep') ?? first('remake');
}
