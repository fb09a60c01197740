import { exponentsAt } from '../growth/girth-exponents';
import { anatomyOf } from '../trend/anatomy-of';
import type { FitToday } from './fit-today';
import { relaxedGirth } from './relaxed-girth';
import { relativeTightness } from './tightness';

/** Room at one place: the relaxed width a weight gain asks for, and the tightness that one width let out all along would leave. */
export type RoomAtPlace = {
  readonly heightMm: number;
  readonly forGainMm: readonly number[];
  readonly tightness: number;
  readonly letOutTightness: number;
};

/**
 * Room for a gain of weight by place, and what one width let out all along does over a taper.
 *
 * ΔG = G ((1 + gain)^k − 1), k the exponent of weight at the place, G the relaxed girth of a piece cut from the newest ladder: what holds the strain. One width W
 * at every place leaves P/P₀ = (1/(G + W) − 1/C) / (1/G₀ − 1/C₀), lowest at the thin end, where W is the larger share of G.
 * Shape: a fit, gains as shares, a width in mm; mm, and tightness as shares. Height is taken as unchanged, so this is for grown people.
 * Source: strain algebra of let-outs (common practice); exponents as in `girth-exponents`.
 * Example: G 300 mm, k 0.45, 10 % of weight: 300 (1.1^0.45 − 1) = 13.1 mm.
 */
export function roomByPlace(fit: FitToday, gains: readonly number[], widthMm: number): RoomAtPlace[] {
  const { latest, piece, cut } = fit;
  const anatomy = anatomyOf(cut.visit);
  return fit.places.map((place) => {
    const { weight } = exponentsAt(latest.ladder.limb, latest.growing, anatomy(place.placeMm));
    const relaxed = relaxedGirth(place.girthNowMm, piece.reductionPct, piece.convention);
    return {
      heightMm: place.heightMm,
      forGainMm: gains.map((gain) => relaxed * ((1 + gain) ** weight - 1)),
      tightness: place.tightness,
      letOutTightness: relativeTightness(place.relaxedNowMm + widthMm, place.girthNowMm, place.cutFromGirthMm, place.relaxedMm),
    };
  });
}
