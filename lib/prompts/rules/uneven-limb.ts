import type { AnalysedVisit } from '../../analysis/analyse-patient';
import { limbInWords } from '../../ladder/limb';
import { isNoAnswer } from '../../outcome';
import type { JudgedChange } from '../../trend/judged-change';
import { showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';
import { pct, signedPct } from '../show-figures';
import { differenceInWords, partsInWords } from '../uneven-in-words';

/**
 * One part of a limb changed and the other did not → repeat, then clinical review. The verdict on the whole limb can miss it: swelling of
 * the lower leg alone is half of it in the mean. Stands with `unexplained-change` of the same limb in one prompt.
 */
export const unevenLimb: Rule = {
  id: 'uneven-limb',
  version: 1,
  apply: ({ limbs }) =>
    limbs.flatMap(({ series, visits }) => {
      const newest = visits.at(-1);
      const judged = unevenOf(newest);
      if (!newest || !judged?.uneven) return [];
      const { uneven } = judged;
      const larger = uneven.ratio > 1;
      const before = unevenOf(visits.at(-2))?.uneven;
      const confirmed = before !== undefined && before.ratio > 1 === larger;
      const limb = limbInWords(series.limb, series.side);
      const since = showDay(judged.change.earlier.visit.day);
      const { far, near } = partsInWords(uneven);
      const what = `${far} it is ${larger ? 'larger' : 'smaller'} than the rest of it leads one to expect`;
      return [
        {
          action: confirmed ? ('review' as const) : ('repeat-reading' as const),
          due: newest.at.visit.day,
          title: confirmed
            ? `Consider a clinical review of the ${limb}: ${what}, at two visits.`
            : `Consider measuring the ${limb} again: ${what}.`,
          facts: [
            `Girth ${far} ${signedPct(uneven.far.girthRatio - 1)}, ${near} ${signedPct(uneven.near.girthRatio - 1)}, from ${since} to ${showDay(newest.at.visit.day)}.`,
            `The difference is ${differenceInWords(uneven)} beyond what is expected.`,
          ],
          figures: [
            { value: signedPct(uneven.far.girthRatio - 1), label: `girth ${far} since ${since}` },
            { value: signedPct(uneven.near.girthRatio - 1), label: `girth ${near}` },
            { value: pct(1.96 * uneven.sd), label: 'give or take on the difference' },
          ],
          missing: judged.change.body.missing.map((figure) => `No ${figure} on record near one of the days.`),
          limits: ['unevenSds' as const],
          cause: `${limb}: unexplained`,
          about: { limb: { limb: series.limb, side: series.side } },
          inputs: `${newest.at.visit.day} ${larger ? 'larger' : 'smaller'} ${uneven.ratio.toFixed(4)}`,
        },
      ];
    }),
};

function unevenOf(visit: AnalysedVisit | undefined): JudgedChange | undefined {
  const judged = visit?.sinceBaseline;
  return judged && !isNoAnswer(judged) ? judged : undefined;
}
