import { daysBetween, showDay } from '../../units/calendar-day';
import { kg, showMass } from '../../units/mass';
import type { Rule } from '../prompt';

/** Sudden weight gain → tell the prescriber: more than the clinic's kilograms within its days, at the newest weighing. */
export const suddenWeightGain: Rule = {
  id: 'sudden-weight-gain',
  version: 1,
  apply: ({ trusted: record, policy }) => {
    const weighed = record.visits.flatMap((visit) =>
      visit.weight ? [{ day: visit.day, kg: kg(visit.weight), unit: visit.weight.unit }] : [],
    );
    const newest = weighed.at(-1);
    const before = weighed.filter((one) => newest && one !== newest && daysBetween(one.day, newest.day) <= policy.suddenGainDays);
    const lightest = before.sort((one, other) => one.kg - other.kg)[0];
    if (!newest || !lightest || newest.kg - lightest.kg <= policy.suddenGainKg) return [];
    return [
      {
        action: 'refer',
        due: newest.day,
        title: 'Weight rose within days. Tell the prescriber today.',
        facts: [
          `${showMass(lightest.kg, newest.unit)} on ${showDay(lightest.day)}, ${showMass(newest.kg, newest.unit)} on ${showDay(newest.day)}.`,
          'Sudden gain can mean fluid. Follow your local protocol.',
        ],
        missing: [],
        limits: ['suddenGainKg', 'suddenGainDays'],
        cause: 'red flag: weight',
        about: {},
        inputs: `${newest.day} ${newest.kg.toFixed(2)}`,
      },
    ];
  },
};
