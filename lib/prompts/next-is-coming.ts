import type { AnalysedPiece } from '../analysis/analyse-piece';
import { isHeldBack } from '../garments/piece-stage';
import { coverKey } from '../garments/wear';
import type { Piece } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';

/** Whether a piece of the same cover, cut from a ladder of that day or later, is on its way or not worn yet: then the remeasure is done. */
export function nextIsComing(piece: Piece, pieces: readonly AnalysedPiece[], since: CalendarDay): boolean {
  return pieces.some(
    (one) =>
      one.piece !== piece &&
      one.inUse &&
      !one.piece.firstWorn &&
      !isHeldBack(one.piece) &&
      one.piece.cutFrom >= since &&
      coverKey(one.piece) === coverKey(piece),
  );
}
