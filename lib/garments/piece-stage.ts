import type { Piece } from '../record/patient-record';
import type { KeptAs } from '../record/piece-life';
import { addDays, type CalendarDay } from '../units/calendar-day';

/** Where a piece stands in its life. `sent back` waits for an alteration or a remake; `held back` is not made until another of its order fits. */
export type PieceStage = 'held back' | 'on order' | 'sent back' | 'delivered' | 'wear-in' | 'in rotation' | 'spare' | 'out of use';

/**
 * The stage of a piece on a day, from its own days alone.
 *
 * Held back until it is released, then on order until it is delivered or worn; delivered until it is worn; wear-in for its planned days from first wear; then in turn
 * unless it is kept as a spare. A piece that went back at its first fit is sent back until it is delivered again.
 * Shape: a piece and a day. Source: common practice of first fit, wear-in and two sets in turn.
 * Example: ordered, neither delivered nor worn → `on order`.
 */
export function pieceStage(piece: Piece, today: CalendarDay): PieceStage {
  if (piece.retired !== null && piece.retired <= today) return 'out of use';
  if (wentBack(piece)) return 'sent back';
  if (isHeldBack(piece)) return 'held back';
  if (!piece.firstWorn || piece.firstWorn > today) return piece.delivered || !piece.orderId ? 'delivered' : 'on order';
  if (piece.wearIn && today < addDays(piece.firstWorn, piece.wearIn.days)) return 'wear-in';
  return keptAs(piece, today) === 'spare' ? 'spare' : 'in rotation';
}

/**
 * Whether a piece is at hand: delivered, worn already, or written down without an order. One that went back is not.
 * Example: delivered and sent back at its first fit → false.
 */
export function isAtHand(piece: Piece): boolean {
  return !wentBack(piece) && (Boolean(piece.delivered ?? piece.firstWorn) || !piece.orderId);
}

/** Whether a piece is to come: on order or sent back, not held back and not called off. */
export function isAwaited(piece: Piece): boolean {
  return !isAtHand(piece) && !isHeldBack(piece) && piece.retired === null;
}

/** Whether a piece of an order is not made yet because another one is fitted first. */
export function isHeldBack(piece: Piece): boolean {
  return piece.retired === null && !isAtHand(piece) && piece.kept?.at(-1)?.as === 'held back';
}

function wentBack({ fit, delivered }: Piece): boolean {
  return Boolean(fit && fit.outcome !== 'keep' && !delivered);
}

/** How a piece is kept on a day: what was said last on or before it, in turn when nothing was. */
export function keptAs(piece: Piece, day: CalendarDay): KeptAs['as'] {
  return (piece.kept ?? []).filter((one) => one.from <= day).at(-1)?.as ?? 'rotation';
}
