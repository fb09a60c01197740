import { isNoAnswer } from '../../outcome';
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
    pieces.flatMap(({ piece, fit, inUse }) => {
      if (!inUse || isNoAnswer(fit) || !piece.allowance) return [];
      const neededMm = Math.max(...fit.places.map((place) => place.relaxedMm * (place.evenedRatio - 1)));
      if (neededMm < mm(piece.allowance.nm)) return [];
      return [
        {
          action: 'let-out' as const,
          due: fit.latest.visit.day,
          title: `Consider letting out or replacing the ${pieceInWords(piece)}: its room is used up.`,
          facts: [
            `Today's girths ask for ${showLengthWithUnit(neededMm, piece.allowance.unit)} of relaxed width; ${piece.allowance.text} was sewn in.`,
            `By the ladder of ${showDay(fit.latest.visit.day)}, cut from ${showDay(piece.cutFrom)}.`,
          ],
          missing: [],
          limits: [],
          cause: `${piece.side} ${piece.limb}: size`,
          about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
          inputs: `${piece.piece} ${fit.latest.visit.day} ${neededMm.toFixed(1)}`,
        },
      ];
    }),
};
