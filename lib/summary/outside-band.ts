import type { PatientAnalysis } from '../analysis/analyse-patient';
import type { AnalysedPiece } from '../analysis/analyse-piece';
import { fitsOfSet } from '../garments/limbs-of-set';
import { sideOfBand } from '../garments/worn-fit';
import { limbInWords } from '../ladder/limb';
import { bandInWords } from '../prompts/wear-in-words';
import type { LimbSide } from '../record/patient-record';

/**
 * Pieces in use that lie outside their band by the newest ladder, wear counted, a sentence each; of one limb where one is given. None where all are
 * within, and nothing of a piece whose fit is not known.
 *
 * Example: `Piece 2, left leg: 3 of 23 places tighter than its band (up to 1.31 as cut; band 0.75–1.25).`
 */
export function outsideBandInWords({ pieces }: PatientAnalysis, limb?: LimbSide): readonly string[] {
  return pieces.filter((one) => one.inUse && (!limb || liesOn(one, limb))).flatMap(sentencesOf);
}

function liesOn({ piece, ofSet }: AnalysedPiece, { limb, side }: LimbSide): boolean {
  return [piece, ...ofSet].some((one) => one.limb === limb && one.side === side);
}

function sentencesOf(one: AnalysedPiece): readonly string[] {
  const { piece, band, wear } = one;
  return fitsOfSet(one).flatMap(({ fit, onLimb }) =>
    (['tighter', 'looser'] as const).flatMap((which) => {
      const cut = fit.places.map(({ tightness }) => tightness).filter((tightness) => sideOfBand(tightness, wear, band) === which);
      if (cut.length === 0) return [];
      const worst = which === 'tighter' ? `up to ${Math.max(...cut).toFixed(2)}` : `down to ${Math.min(...cut).toFixed(2)}`;
      const places = `${cut.length} of ${fit.places.length} places${onLimb} ${which} than its band`;
      return [`Piece ${piece.piece}, ${limbInWords(piece.limb, piece.side)}: ${places} (${worst} as cut; band ${bandInWords(band)}).`];
    }),
  );
}
