import type { PatientAnalysis } from '../analysis/analyse-patient';
import type { AnalysedPiece } from '../analysis/analyse-piece';
import { isAtHand } from '../garments/piece-stage';
import { placesOutside } from '../garments/places-outside';
import { limbInWords } from '../ladder/limb';
import type { LimbSide } from '../record/patient-record';
import { bandInWords } from './wear-in-words';

/**
 * Pieces at hand that lie outside their band by the newest ladder, wear counted, a sentence each. None where all are within, nothing of a piece
 * whose fit is not known, and nothing of one that nobody has: on order, sent back, held back.
 *
 * Example: `Piece 2, left leg: 3 of 23 places tighter than its band (up to 1.31 as cut; band 0.75–1.25).`
 */
export function outsideInWords({ pieces }: Pick<PatientAnalysis, 'pieces'>): readonly string[] {
  return pieces.filter(({ inUse, piece }) => inUse && isAtHand(piece)).flatMap(sentencesOf);
}

/** The same of what is worn on one limb: a piece that nobody wears yet is no garment that a family asks about. */
export function outsideWornOn({ pieces, today }: Pick<PatientAnalysis, 'pieces' | 'today'>, limb: LimbSide): readonly string[] {
  return outsideInWords({ pieces: pieces.filter((one) => liesOn(one, limb) && one.piece.firstWorn && one.piece.firstWorn <= today) });
}

function liesOn({ piece, ofSet }: AnalysedPiece, { limb, side }: LimbSide): boolean {
  return [piece, ...ofSet].some((one) => one.limb === limb && one.side === side);
}

function sentencesOf(one: AnalysedPiece): readonly string[] {
  const { piece, band } = one;
  return placesOutside(one).flatMap(({ fit, onLimb, outside }) =>
    (['tighter', 'looser'] as const).flatMap((which) => {
      const cut = outside.filter(({ side }) => side === which).map(({ place }) => place.tightness);
      if (cut.length === 0) return [];
      const worst = which === 'tighter' ? `up to ${Math.max(...cut).toFixed(2)}` : `down to ${Math.min(...cut).toFixed(2)}`;
      const places = `${cut.length} of ${fit.places.length} places${onLimb} ${which} than its band`;
      return [`Piece ${piece.piece}, ${limbInWords(piece.limb, piece.side)}: ${places} (${worst} as cut; band ${bandInWords(band)}).`];
    }),
  );
}
