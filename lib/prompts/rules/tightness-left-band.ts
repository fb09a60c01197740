import { placesOutside } from '../../garments/places-outside';
import { limbInWords } from '../../ladder/limb';
import { placeOnTape } from '../../ladder/place-on-tape';
import { rulerOf } from '../../trend/limb-series';
import { showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';
import { pieceInWords } from '../show-figures';
import { bandInWords, wearInWords } from '../wear-in-words';

/**
 * Tightness left the band of the piece as worn → remeasure and refit. The figure as cut is the place's own, the same as in strip, chart and table; what
 * wear took and which places count is `placesOutside`: one rough reading orders no piece. Of a garment on several limbs the worst place of all of them is said, and its limb.
 */
export const tightnessLeftBand: Rule = {
  id: 'tightness-left-band',
  version: 3,
  apply: ({ pieces }) =>
    pieces.flatMap((one) => {
      const { piece, inUse, band, wear } = one;
      if (!inUse) return [];
      const found = placesOutside(one).flatMap(({ outside, ...limb }) =>
        outside.map((of) => ({ ...of, ...limb, worn: of.place.tightness * wear.left.middle })),
      );
      const worst = found.sort((place, other) => Math.abs(Math.log(other.worn || 0.01)) - Math.abs(Math.log(place.worn || 0.01)))[0];
      if (!worst) return [];
      const { fit, onLimb } = worst;
      const outside = found.filter((place) => place.fit === fit);
      const { unit } = fit.latest.ladder;
      const { tightness, heightMm } = worst.place;
      const range = [wear.left.least, wear.left.most].map((left) => (tightness * left).toFixed(2)).join('–');
      const figure = wear.wornDays > 0 ? `${worst.worn.toFixed(2)} (${range}) as worn` : `${tightness.toFixed(2)} as cut`;
      return [
        {
          action: 'refit' as const,
          due: fit.latest.visit.day,
          title: `Consider a remeasure and refit of the ${pieceInWords(piece)}: it ${piece.firstWorn ? 'sits' : 'is not worn yet and would sit'} ${worst.side} than the working band${onLimb}.`,
          facts: [
            `${figure}${wear.wornDays > 0 ? `, ${tightness.toFixed(2)} as cut` : ''} × the tightness as fitted, calculated, at ${placeOnTape(heightMm, rulerOf(fit.cut.visit), unit)}\u202f${unit}, band ${bandInWords(band)}, by the ladder of ${showDay(fit.latest.visit.day)}.`,
            `${outside.length} of ${fit.places.length} places${onLimb} are outside the band${wear.wornDays > 0 ? ' as worn' : ''}.`,
            wear.wornDays > 0 ? `Judged as worn. ${wearInWords(wear)}` : 'Judged as cut: it has not been worn yet.',
            ...band.says,
          ],
          figures: [
            {
              value: worst.worn.toFixed(2),
              label: `${worst.side === 'tighter' ? 'tightest' : 'loosest'} place${wear.wornDays > 0 ? ' as worn' : ''}, ${placeOnTape(heightMm, rulerOf(fit.cut.visit), unit)}\u202f${unit}; band ${bandInWords(band)}`,
            },
            { value: `${outside.length} of ${fit.places.length}`, label: `places${onLimb} outside the band` },
            { value: showDay(fit.latest.visit.day), label: `measured; made to the measurements of ${showDay(piece.cutFrom)}` },
          ],
          missing: [],
          limits:
            wear.wornDays > 0 ? (['bandLow', 'bandHigh', ...lossLimits(wear.loss.fabric)] as const) : (['bandLow', 'bandHigh'] as const),
          cause: `${limbInWords(piece.limb, piece.side)}: size`,
          about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
          inputs: `${piece.piece} ${fit.latest.visit.day} ${tightness.toFixed(3)}${onLimb}`,
        },
      ];
    }),
};

function lossLimits(fabric: string) {
  const scar = ['scarLossLowPct', 'scarLossHighPct'] as const;
  const knit = ['flatKnitLossLowPct', 'flatKnitLossHighPct'] as const;
  return fabric === 'scar garment' ? scar : fabric === 'flat knit' ? knit : [...knit, ...scar];
}
