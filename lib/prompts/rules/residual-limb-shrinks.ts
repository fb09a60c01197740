import { amputationBefore, expectedShrinking } from '../../analysis/residual-limb';
import { limbInWords } from '../../ladder/limb';
import { addDays, daysBetween, showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';
import { pct } from '../show-figures';

/** Searched for the due day so far ahead, days. */
const LONGEST_DAYS = 548;

/**
 * A residual limb shrinks in the first months → measure again, and try the piece on, once it is expected to have lost the clinic's share (5 %) of its
 * volume since it was measured last. It settles after 78 weeks; then nothing is asked.
 */
export const residualLimbShrinks: Rule = {
  id: 'residual-limb-shrinks',
  version: 1,
  apply: ({ record, limbs, policy, today }) =>
    limbs.flatMap(({ series }) => {
      const { limb, side } = series;
      const last = series.visits.findLast(({ visit }) =>
        visit.measures?.some((one) => one.measure === `residual-${limb}-length` && one.side === side),
      );
      const amputated = last && amputationBefore(record, last.visit.day);
      if (!last || !amputated) return [];
      const { day } = last.visit;
      const lost = (on: number) => expectedShrinking(daysBetween(amputated, day), daysBetween(amputated, day) + on);
      const wait = Array.from({ length: LONGEST_DAYS }, (_, on) => on).find((on) => lost(on) * 100 >= policy.residualLossPct);
      if (wait === undefined || today < addDays(day, wait)) return [];
      return [
        {
          action: 'remeasure' as const,
          due: addDays(day, wait),
          title: `Consider measuring the residual ${limbInWords(limb, side)} again: it is expected to shrink.`,
          facts: [
            `Measured on ${showDay(day)}, amputation of ${showDay(amputated)}; about ${pct(lost(daysBetween(day, today)))} of its volume is expected to have gone since (one study of legs below the knee).`,
            'Measure the same minutes after the prosthesis or shrinker came off.',
          ],
          missing: [],
          limits: ['residualLossPct' as const],
          cause: `${side} ${limb}: residual limb`,
          about: { limb: { limb, side } },
          inputs: `${side} ${limb} ${day}`,
        },
      ];
    }),
};
