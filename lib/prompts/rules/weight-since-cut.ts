import { bodyAt } from '../../growth/body-at';
import { limbInWords } from '../../ladder/limb';
import { isNoAnswer } from '../../outcome';
import { isGrowing } from '../../trend/limb-series';
import { showDay } from '../../units/calendar-day';
import { kg, showMass } from '../../units/mass';
import { nextIsComing } from '../next-is-coming';
import type { Rule } from '../prompt';
import { pieceInWords, signedPct } from '../show-figures';

/**
 * Weight since the cut-from ladder → remeasure (adults). The clinic's look limit (5 %) asks for a remeasure, its refit limit (10 %) for a new
 * piece. Compared with the weight on the day the piece was cut from, never with the last visit. A child's weight should rise: see growth.
 */
export const weightSinceCut: Rule = {
  id: 'weight-since-cut',
  version: 2,
  apply: ({ trusted: record, pieces, policy }) =>
    pieces.flatMap(({ piece, fit, inUse }) => {
      if (!inUse || isGrowing(record, piece.cutFrom, policy)) return [];
      const then = bodyAt(record.visits, piece.cutFrom, false).weightKg;
      const weighed = record.visits.filter((visit) => visit.weight && visit.day > piece.cutFrom).at(-1);
      if (!then || !weighed?.weight || nextIsComing(piece, pieces, weighed.day)) return [];
      const nowKg = kg(weighed.weight);
      const change = nowKg / then.value - 1;
      if (Math.abs(change) * 100 < policy.weightLookPct) return [];
      const { unit } = weighed.weight;
      const tapedSince =
        !isNoAnswer(fit) && fit.latest.visit.day >= weighed.day
          ? [`Measured since, on ${showDay(fit.latest.visit.day)}: that ladder can serve.`]
          : [];
      const newPiece = Math.abs(change) * 100 >= policy.weightRefitPct;
      return [
        {
          action: 'remeasure' as const,
          due: weighed.day,
          title: newPiece
            ? `Consider a remeasure and expect a new ${pieceInWords(piece)}: weight since it was cut.`
            : `Consider a remeasure for the ${pieceInWords(piece)}: weight since it was cut.`,
          facts: [
            `Weight ${signedPct(change)}: ${showMass(then.value, unit)} on ${showDay(then.day)}, ${showMass(nowKg, unit)} on ${showDay(weighed.day)}.`,
            `If the limb follows weight, girth is ${signedPct((1 + change) ** 0.45 - 1)} near the calf or forearm.`,
            ...tapedSince,
          ],
          figures: [
            { value: signedPct(change), label: `weight since ${showDay(then.day)}` },
            { value: showMass(nowKg, unit), label: `on ${showDay(weighed.day)}, ${showMass(then.value, unit)} then` },
            { value: signedPct((1 + change) ** 0.45 - 1), label: 'girth, if the limb follows' },
          ],
          missing: [],
          limits: ['weightLookPct' as const, 'weightRefitPct' as const],
          cause: `${limbInWords(piece.limb, piece.side)}: size`,
          about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
          inputs: `${piece.piece} ${then.day} ${weighed.day} ${change.toFixed(4)}`,
        },
      ];
    }),
};
