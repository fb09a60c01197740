import { fittedBefore } from '../../garments/of-one-order';
import { showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';
import { coverInWords, pieceInWords } from '../show-figures';

/**
 * A piece is held back and another of its order has been fitted → release it where that one was kept, settle it where that one is made again.
 *
 * Source: the first of several like pieces is fitted before the others are made (common practice).
 */
export const releaseAfterFit: Rule = {
  id: 'release-after-fit',
  version: 1,
  apply: ({ record, today }) =>
    record.pieces.flatMap((piece) => {
      const fitted = fittedBefore(piece, record.pieces);
      if (!fitted || fitted.day > today) return [];
      const kept = fitted.outcome === 'keep';
      const held = pieceInWords(piece);
      return [
        {
          action: 'release' as const,
          due: fitted.day,
          title: kept
            ? `Consider releasing the ${held}: piece ${fitted.piece} of its order was kept at its first fit.`
            : `Consider calling off or changing the ${held}, held back: piece ${fitted.piece} of its order is made again.`,
          facts: [
            `Piece ${fitted.piece} was fitted ${showDay(fitted.day)}: ${kept ? 'kept' : 'to be made again'}.`,
            `Making takes ${piece.leadDays} days; it covers ${coverInWords(piece.covers)}.`,
          ],
          missing: [],
          limits: [],
          cause: `piece ${piece.piece}: held back`,
          about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
          inputs: `${piece.piece} ${fitted.piece} ${fitted.day} ${fitted.outcome}`,
        },
      ];
    }),
};
