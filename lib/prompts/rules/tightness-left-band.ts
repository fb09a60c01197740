import { relativeTightness } from '../../garments/tightness';
import { placeOnTape } from '../../ladder/place-on-tape';
import { isNoAnswer } from '../../outcome';
import { rulerOf } from '../../trend/limb-series';
import { showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';
import { pieceInWords } from '../show-figures';

/**
 * Tightness left the working band → remeasure and refit. The figure is the place's own, the same as in strip, chart and table; a place counts
 * only where it is still outside after its reading is drawn towards the rest of the limb, so that one rough reading does not order a piece.
 */
export const tightnessLeftBand: Rule = {
  id: 'tightness-left-band',
  version: 2,
  apply: ({ pieces, policy }) =>
    pieces.flatMap(({ piece, fit, inUse }) => {
      if (!inUse || isNoAnswer(fit)) return [];
      const beyond = (tightness: number) => tightness > policy.bandHigh || tightness < policy.bandLow;
      const outside = fit.places.flatMap((place) => {
        const evened = relativeTightness(
          place.relaxedNowMm,
          place.cutFromGirthMm * place.evenedRatio,
          place.cutFromGirthMm,
          place.relaxedMm,
        );
        return beyond(evened) && beyond(place.tightness) ? [{ place, tightness: place.tightness }] : [];
      });
      const worst = outside.sort(
        (one, other) => Math.abs(Math.log(other.tightness || 0.01)) - Math.abs(Math.log(one.tightness || 0.01)),
      )[0];
      if (!worst) return [];
      const { unit } = fit.latest.ladder;
      const tighter = worst.tightness > 1;
      return [
        {
          action: 'refit' as const,
          due: fit.latest.visit.day,
          title: `Consider a remeasure and refit of the ${pieceInWords(piece)}: it sits ${tighter ? 'tighter' : 'looser'} than the working band.`,
          facts: [
            `${worst.tightness.toFixed(2)} × the tightness as fitted, calculated, at ${placeOnTape(worst.place.heightMm, rulerOf(fit.cut.visit), unit)}\u202f${unit}, band ${policy.bandLow}–${policy.bandHigh}, by the ladder of ${showDay(fit.latest.visit.day)}.`,
            `${outside.length} of ${fit.places.length} places are outside the band.`,
            'Age and washing loosen a piece and are not in this figure.',
          ],
          figures: [
            {
              value: worst.tightness.toFixed(2),
              label: `${tighter ? 'tightest' : 'loosest'} place, ${placeOnTape(worst.place.heightMm, rulerOf(fit.cut.visit), unit)}\u202f${unit}; band ${policy.bandLow}–${policy.bandHigh}`,
            },
            { value: `${outside.length} of ${fit.places.length}`, label: 'places outside the band' },
            { value: showDay(fit.latest.visit.day), label: `measured; made to the measurements of ${showDay(piece.cutFrom)}` },
          ],
          missing: [],
          limits: ['bandLow' as const, 'bandHigh' as const],
          cause: `${piece.side} ${piece.limb}: size`,
          about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
          inputs: `${piece.piece} ${fit.latest.visit.day} ${worst.tightness.toFixed(3)}`,
        },
      ];
    }),
};
