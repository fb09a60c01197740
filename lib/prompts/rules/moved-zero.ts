import { shiftInWords } from '../../alignment/shift-in-words';
import { limbInWords } from '../../ladder/limb';
import { isNoAnswer } from '../../outcome';
import { showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';

/** Zero looks moved, a whole interval slipped, or the figures read like the other unit → tape again. */
export const movedZero: Rule = {
  id: 'moved-zero',
  version: 1,
  apply: ({ limbs }) =>
    limbs.flatMap(({ series, visits }) => {
      const newest = visits.at(-1);
      const judged = newest?.sinceLast;
      if (!newest || !judged || isNoAnswer(judged) || !judged.change.shift?.finding) return [];
      const { shift } = judged.change;
      const limb = limbInWords(series.limb, series.side);
      return [
        {
          action: 'repeat-reading' as const,
          due: newest.at.visit.day,
          title: `Consider measuring the ${limb} again from its zero.`,
          facts: [
            shiftInWords(shift, newest.at.ladder.unit),
            `Ladder of ${showDay(newest.at.visit.day)} against ${showDay(judged.change.earlier.visit.day)}.`,
          ],
          missing:
            judged.change.alignment.earlierMm.length < 2 ? ['A second landmark on the ruler would tell a moved zero from a change.'] : [],
          limits: ['shiftAskMm' as const, 'placementSdMm' as const],
          cause: `${limb}: reading`,
          about: { limb: { limb: series.limb, side: series.side } },
          inputs: `${newest.at.visit.day} ${shift.finding} ${shift.mm.toFixed(0)}`,
        },
      ];
    }),
};
