import type { Piece } from '../record/patient-record';
import { mm } from '../units/length';

/**
 * Relaxed width let out of a piece so far, mm: the sum over its let-outs; 0 where nothing was.
 *
 * Example: let out 1 cm in May and ½ cm in July: 15 mm.
 */
export function letOutMm(piece: Pick<Piece, 'alterations'>): number {
  return (piece.alterations ?? []).reduce((sum, one) => sum + (one.kind === 'let out' && one.width ? mm(one.width.nm) : 0), 0);
}
