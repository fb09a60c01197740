import { NEAREST_WITHIN_DAYS } from '../../growth/body-at';
import { isGrowing } from '../../trend/limb-series';
import { showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';

/** A growing child was taped without a height or a weight near that day: nothing can be said of what growth explains. */
export const bodyNotMeasured: Rule = {
  id: 'body-not-measured',
  version: 1,
  apply: ({ record, limbs, policy, today }) => {
    const newest = limbs
      .flatMap(({ series }) => series.visits.at(-1) ?? [])
      .sort((one, other) => (one.visit.day < other.visit.day ? 1 : -1))[0];
    if (!newest || !isGrowing(record, today, policy)) return [];
    const { heightMm, weightKg } = newest.body;
    const missing = [...(heightMm ? [] : ['height']), ...(weightKg ? [] : ['weight'])];
    if (missing.length === 0) return [];
    const { day } = newest.visit;
    return [
      {
        action: 'visit',
        due: null,
        title: `Consider measuring ${missing.join(' and ')} at the next visit.`,
        facts: [`Measured on ${showDay(day)}; no ${missing.join(' and no ')} within ${NEAREST_WITHIN_DAYS.growing} days of it.`],
        missing,
        limits: [],
        cause: 'body not measured',
        about: {},
        inputs: `${day} ${missing.join()}`,
      },
    ];
  },
};
