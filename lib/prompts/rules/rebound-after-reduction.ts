import { type Rebound, reboundSince } from '../../analysis/reduction';
import { limbInWords } from '../../ladder/limb';
import { showDay } from '../../units/calendar-day';
import { showVolume } from '../../units/volume';
import type { Rule } from '../prompt';
import { pct } from '../show-figures';

/** Much of what a reduction took off a limb is back since it ended → consider reducing it again. */
export const reboundAfterReduction: Rule = {
  id: 'rebound-after-reduction',
  version: 1,
  apply: (analysis) =>
    analysis.limbs.flatMap((limb) => {
      const rebound = reboundSince(analysis, limb);
      if (!rebound?.reached) return [];
      const { limb: kind, side } = limb.series;
      const words = limbInWords(kind, side);
      const { ended, day, backShare, aboveEndShare } = rebound;
      return [
        {
          action: 'review' as const,
          due: day,
          title: `Consider reducing the ${words} again: ${pct(backShare)} of what reduction took off is back.`,
          facts: [
            `${reboundSentence(rebound)}${aboveEndShare === null ? '' : ` That is ${pct(aboveEndShare)} above the difference at its end.`}`,
            'First ask: garments worn, days a week, weight, infection, wear of the pieces.',
          ],
          figures: [{ value: pct(backShare), label: `of the loss is back since ${showDay(ended)}` }],
          missing: [],
          limits: ['reboundRegainedPct' as const, 'reboundAbovePct' as const],
          cause: `${words}: rebound`,
          about: { limb: { limb: kind, side } },
          inputs: `${ended} ${day} ${backShare.toFixed(4)}`,
        },
      ];
    }),
};

/** What is back, in one sentence. Example: `Reduction to 30 Mar 2026 took off 247 ml of the difference; 108 ml (44 %) is back on 25 Nov 2026.` */
export function reboundSentence({ ended, day, lost, back, backShare, of }: Rebound): string {
  const [took, isBack] =
    of === 'excess' ? [`${showVolume(lost)} of the difference`, showVolume(back)] : [`${pct(lost)} of the volume`, pct(back)];
  return `Reduction to ${showDay(ended)} took off ${took}; ${isBack} (${pct(backShare)}) is back on ${showDay(day)}.`;
}
