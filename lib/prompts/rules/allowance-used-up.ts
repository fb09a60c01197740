import { letOutMm } from '../../garments/let-out';
import { fitsOfSet } from '../../garments/limbs-of-set';
import { limbInWords } from '../../ladder/limb';
import { showDay } from '../../units/calendar-day';
import { mm } from '../../units/length';
import { showLengthWithUnit } from '../../units/show-length';
import type { Rule } from '../prompt';
import { pieceInWords } from '../show-figures';

/** Allowance used up → let out or replace: the width that today's girth asks for is as large as the room that was sewn in. */
export const allowanceUsedUp: Rule = {
  id: 'allowance-used-up',
  version: 1,
  apply: ({ pieces }) =>
    pieces.flatMap((one) => {
      const { piece, inUse } = one;
      if (!inUse || !piece.allowance) return [];
      const asked = fitsOfSet(one).map((limb) => ({
        ...limb,
        neededMm: Math.max(...limb.fit.places.map((place) => place.relaxedMm * (place.evenedRatio - 1))),
      }));
      const most = asked.sort((limb, other) => other.neededMm - limb.neededMm)[0];
      if (!most || most.neededMm < mm(piece.allowance.nm)) return [];
      const { fit, onLimb, neededMm } = most;
      const left = mm(piece.allowance.nm) - letOutMm(piece);
      return [
        {
          action: 'let-out' as const,
          due: fit.latest.visit.day,
          title:
            left > 0
              ? `Consider letting out or replacing the ${pieceInWords(piece)}: its room is used up.`
              : `Consider replacing the ${pieceInWords(piece)}: its room is let out and used up.`,
          facts: [
            `The newest girths${onLimb} ask for ${showLengthWithUnit(neededMm, piece.allowance.unit)} of relaxed width; ${piece.allowance.text} was sewn in.`,
            ...(letOutMm(piece) > 0 ? [`Let out so far: ${showLengthWithUnit(letOutMm(piece), piece.allowance.unit)}.`] : []),
            `By the ladder of ${showDay(fit.latest.visit.day)}, made to the measurements of ${showDay(piece.cutFrom)}.`,
          ],
          missing: [],
          limits: [],
          cause: `${limbInWords(piece.limb, piece.side)}: size`,
          about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
          inputs: `${piece.piece} ${fit.latest.visit.day} ${neededMm.toFixed(1)}${onLimb}${letOutMm(piece) > 0 ? ` let out ${letOutMm(piece).toFixed(1)}` : ''}`,
        },
      ];
    }),
};
