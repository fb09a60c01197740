import type { AnalysedVisit } from '../../analysis/analyse-patient';
import { limbInWords } from '../../ladder/limb';
import { isNoAnswer } from '../../outcome';
import { REACH_95 } from '../../statistics/reach-95';
import { isAlarm, type JudgedChange } from '../../trend/judged-change';
import { showDay } from '../../units/calendar-day';
import { courseSentence, partInWords } from '../change-in-words';
import type { Rule } from '../prompt';
import { pct, signedPct } from '../show-figures';

/**
 * Unexplained gain or loss of a limb, or of one part of it → repeat, then clinical review. The first visit that shows it asks to measure again;
 * when the next one of the phase shows the same way, a clinical review is proposed. A band of 3–5 % alone never asks for a garment. During a
 * reduction an affected limb shall become smaller: its loss is no question.
 */
export const unexplainedChange: Rule = {
  id: 'unexplained-change',
  version: 2,
  apply: ({ limbs }) =>
    limbs.flatMap(({ series, affected, visits }) => {
      const newest = visits.at(-1);
      const judged = outOfExpectation(newest);
      if (!newest || !judged?.explained || !judged.found) return [];
      if (affected && newest.inPhase.phase?.kind === 'reduction' && judged.verdict === 'less-than-expected') return [];
      const { found } = judged;
      const before = visits.at(-2);
      const confirmed = before?.inPhase.baseline === newest.inPhase.baseline && outOfExpectation(before)?.verdict === judged.verdict;
      const limb = limbInWords(series.limb, series.side);
      const more = judged.verdict === 'more-than-expected';
      const since = showDay(judged.change.earlier.visit.day);
      const where = partInWords(found);
      const part = where && ` ${where}`;
      return [
        {
          action: confirmed ? ('review' as const) : ('repeat-reading' as const),
          due: newest.at.visit.day,
          title: confirmed
            ? `Consider a clinical review of the ${limb}:${part} ${more ? 'larger' : 'smaller'} than expected at two visits.`
            : `Consider measuring the ${limb} again:${part} ${more ? 'larger' : 'smaller'} than weight, height or the other limb explain.`,
          facts: [
            courseSentence(judged) ?? '',
            `Mean girth of the whole ${series.limb} ${signedPct(judged.explained.unexplainedRatio - 1)} beyond what is expected, give or take ${pct(REACH_95 * judged.explained.sd)}, from ${since} to ${showDay(newest.at.visit.day)}.`,
            `Volume ${signedPct(judged.change.measured.volume.ratio - 1)}, expected ${signedPct(judged.expectedVolumeRatio - 1)}; smallest real change ${pct(judged.smallestRealChange)}.`,
          ],
          figures: [
            {
              value: signedPct(found.ratio - 1),
              label: `girth${part} beyond what is expected, give or take ${pct(REACH_95 * found.sd)}`,
            },
            { value: signedPct(judged.change.measured.volume.ratio - 1), label: `volume since ${since}` },
            { value: pct(judged.smallestRealChange), label: 'smallest real change of volume' },
          ],
          missing: judged.change.body.missing.map((figure) => `No ${figure} on record near one of the days.`),
          limits: ['alarmProbability' as const],
          cause: `${limb}: unexplained`,
          about: { limb: { limb: series.limb, side: series.side } },
          inputs: `${newest.at.visit.day} ${judged.verdict} ${found.part} ${found.ratio.toFixed(4)}`,
        },
      ];
    }),
};

function outOfExpectation(visit: AnalysedVisit | undefined): JudgedChange | undefined {
  const judged = visit?.sinceBaseline;
  if (!judged || isNoAnswer(judged)) return undefined;
  return isAlarm(judged.verdict) ? judged : undefined;
}
