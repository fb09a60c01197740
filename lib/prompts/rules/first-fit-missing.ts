import { addDays, showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';
import { pieceInWords } from '../show-figures';

/** No first-fit check on record within the clinic's days of first wear. */
export const firstFitMissing: Rule = {
  id: 'first-fit-missing',
  version: 1,
  apply: ({ pieces, policy, today }) =>
    pieces.flatMap(({ piece, inUse }) => {
      if (!inUse || piece.firstFit !== null || !piece.firstWorn) return [];
      const due = addDays(piece.firstWorn, policy.firstFitDays);
      if (today < due) return [];
      return [
        {
          action: 'first-fit' as const,
          due,
          title: `Consider a first-fit check of the ${pieceInWords(piece)}.`,
          facts: [`First worn ${showDay(piece.firstWorn)}, no check on record.`],
          missing: [],
          limits: ['firstFitDays' as const],
          cause: `piece ${piece.piece}: first fit`,
          about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
          inputs: `${piece.piece} ${piece.firstWorn}`,
        },
      ];
    }),
};
