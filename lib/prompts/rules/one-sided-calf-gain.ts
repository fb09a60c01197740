import type { AnalysedLimb } from '../../analysis/analyse-patient';
import { anatomicalPlace } from '../../growth/anatomical-place';
import { girthAt } from '../../ladder/girth-at';
import { isNoAnswer } from '../../outcome';
import { samePlace } from '../../trend/limb-change';
import { daysBetween, showDay } from '../../units/calendar-day';
import { showLengthWithUnit } from '../../units/show-length';
import type { Rule } from '../prompt';

/** The calf lies between these anatomical places of the leg (0 ankle crease, 1 knee). */
const CALF = { from: 0.45, to: 0.95 } as const;

/**
 * New one-sided calf gain → tell the prescriber the same day. Larger by the clinic's limit (3 cm) than at a visit within its days, beyond
 * what the other calf did; against the patient's own earlier ladder, because a swollen leg is unequal already.
 */
export const oneSidedCalfGain: Rule = {
  id: 'one-sided-calf-gain',
  version: 1,
  apply: ({ limbs, policy }) =>
    limbs.flatMap((limb) => {
      const gain = calfGain(limb);
      if (!gain || gain.days > policy.calfGainDays) return [];
      const other = limbs.find((one) => one.series.limb === 'leg' && one.series.side !== limb.series.side);
      const otherGain = other ? calfGain(other) : undefined;
      const beyond = gain.mm - (otherGain?.day === gain.day ? otherGain.mm : 0);
      if (beyond < policy.calfGainMm) return [];
      const { unit } = gain;
      return [
        {
          action: 'refer' as const,
          due: gain.day,
          title: `The ${limb.series.side} calf has become larger in ${gain.days} days. Tell the prescriber today.`,
          facts: [
            `${showLengthWithUnit(gain.mm, unit)} larger than on ${showDay(gain.since)}${otherGain ? `; the other calf changed by ${showLengthWithUnit(otherGain.mm, unit)}` : ''}.`,
            'Same-day medical assessment by your local protocol.',
          ],
          missing: otherGain ? [] : ['The other leg was not taped.'],
          limits: ['calfGainMm' as const, 'calfGainDays' as const],
          cause: `red flag: ${limb.series.side} calf`,
          about: { limb: { limb: 'leg' as const, side: limb.series.side } },
          inputs: `${gain.day} ${gain.mm.toFixed(1)}`,
        },
      ];
    }),
};

/** Largest gain of girth along the calf from the visit before to the newest one. */
function calfGain(limb: AnalysedLimb) {
  const judged = limb.visits.at(-1)?.sinceLast;
  if (limb.series.limb !== 'leg' || !judged || isNoAnswer(judged)) return undefined;
  const { change } = judged;
  const { earlier, later } = change;
  const place = anatomicalPlace('leg', (landmark) => earlier.placed.landmarks.get(landmark)?.placeMm, earlier.body.heightMm?.value);
  const gains = earlier.placed.line.placesMm.flatMap((placeMm, rung) => {
    const now = girthAt(later.placed.line.placesMm, later.placed.line.girthsMm, samePlace(change, placeMm));
    const at = place(placeMm);
    return now === undefined || at < CALF.from || at > CALF.to ? [] : [now - (earlier.placed.line.girthsMm[rung] as number)];
  });
  if (gains.length === 0) return undefined;
  const days = daysBetween(earlier.visit.day, later.visit.day);
  return { mm: Math.max(...gains), days, day: later.visit.day, since: earlier.visit.day, unit: later.ladder.unit };
}
