import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY, type Policy } from '@/lib/limits/policy';
import { addDays } from '@/lib/units/calendar-day';
import type { Random } from '../cohort/random';
import { answersOf, worksOn } from './answers-of';
import { digest } from './digest';
import { PEOPLE } from './made-up-people';

/** Days on which a person is looked at beside the days of its own schedule. */
const AFTER_LAST_VISIT = [0, 45, 200] as const;
const MOST_DAYS = 14;

/** The clinic's limits, each person's its own: so that none is looked at on its default alone. */
function limitsFor(random: Random): Policy {
  const figures = Object.entries(DEFAULT_POLICY).map(([name, value]) => [
    name,
    typeof value === 'number' && random.uniform() < 0.15 ? value * random.pick([0.8, 1.25]) : value,
  ]);
  return { ...(Object.fromEntries(figures) as Policy), growthReference: random.pick(['cdc-2000', 'who']) };
}

/**
 * Everything that the engine says of made-up people, kept as it was when somebody last looked. A change says only THAT an answer changed, not
 * which of the two is right: that is what the other tests are for. Where the change is meant, `npm run answers` keeps the new ones.
 */
describe('answers as they were kept', () => {
  it.each(PEOPLE)('of $name are the same', ({ make }) => {
    const { record, random } = make();
    const policy = limitsFor(random);
    const last = record.visits.at(-1)?.day ?? record.born;
    const [today, ...others] = AFTER_LAST_VISIT.map((days) => addDays(last, days));
    const { asIs, written, answered } = worksOn(record, policy, today ?? last);
    const said = Object.entries(answersOf(answered, written.answers)).map(([part, answer]) => `${part} ${digest(answer)}`);
    const days = [
      ...new Set([...others, ...asIs.dates.flatMap(({ computed }) => [computed, addDays(computed, -1), addDays(computed, 1)])]),
    ];
    const work = days.slice(0, MOST_DAYS).map((day) => {
      const on = worksOn(record, policy, day);
      return `${day} ${digest([on.asIs, on.answered])}`;
    });
    expect([`before answers ${digest(asIs)}`, ...said, ...work].join('\n')).toMatchSnapshot();
  });
});
