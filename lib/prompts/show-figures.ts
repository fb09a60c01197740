import { lengthAsTyped } from '../forms/read-cut';
import { limbInWords, placeInWords } from '../ladder/limb';
import type { CoverEnd, Piece } from '../record/patient-record';

/** A share as a signed per cent: 0.0651 is `+6.5 %`. Minus is −, thin space before the sign. */
export function signedPct(share: number, decimals = 1): string {
  const rounded = Math.abs(share * 100).toFixed(decimals);
  const sign = Number(rounded) === 0 ? '' : share < 0 ? '−' : '+';
  return `${sign}${rounded}\u202f%`;
}

/** A share as a per cent without sign. */
export function pct(share: number, decimals = 1): string {
  return `${(Math.abs(share) * 100).toFixed(decimals)}\u202f%`;
}

/** `right-leg piece 3` */
export function pieceInWords(piece: Piece): string {
  return `${limbInWords(piece.limb, piece.side).replace(' ', '-')} piece ${piece.piece}`;
}

/** `ankle crease to knee`; `its named measures` where those alone make it */
export function coverInWords(covers: Piece['covers']): string {
  if (covers === 'measures') return 'its named measures';
  const end = (one: CoverEnd): string => (typeof one === 'string' ? placeInWords(one) : lengthAsTyped(one));
  return `${end(covers.from)} to ${end(covers.to)}`;
}
