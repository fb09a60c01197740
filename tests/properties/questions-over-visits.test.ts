import { afterAll, describe, expect, it } from 'vitest';
import { bodyAt } from '@/lib/growth/body-at';
import type { LastLadder, TapingDay } from '@/lib/growth/expected-ladder';
import type { Ladder } from '@/lib/ladder/ladder';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { tapeSds } from '@/lib/limits/tape-sds';
import type { Visit } from '@/lib/record/patient-record';
import { ladderAsTaped, lastLadder } from '@/lib/trend/last-ladder';
import { limbSeries } from '@/lib/trend/limb-series';
import type { SeriesVisit } from '@/lib/trend/series-visit';
import { dayNumber } from '@/lib/units/calendar-day';
import { exactText } from '@/lib/units/exact-text';
import { coursePerson } from '@/tests/cohort/course-person';
import { heldOutLimbs } from '@/tests/cohort/limb-shape';
import { seeded } from '@/tests/cohort/random';
import { doubledRung, type Plant, skippedRung, swappedDigits, swappedNeighbours } from './plant-errors';
import { askedWhileTyping, placesAsked } from './two-visits';

/** People a kind of limb and age; the campaign `doubt-rates` asks for more. */
const PEOPLE = Math.ceil(Number(process.env.DOUBT_LADDERS ?? 60) / 6);
const PLANTS: Readonly<Record<string, Plant>> = { skippedRung, doubledRung, swappedDigits, swappedNeighbours };

type Tally = { ladders: number; questions: number; planted: number; found: number };
const table: Record<string, string>[] = [];

/**
 * A newest ladder held against the one before it alone, and against all before it, of people whose exponents, drift, measurers and errors
 * the engine does not assume (`course-person`). With errors of 1.5 the clinic has learnt its scale of 2.06 from its record.
 */
describe.each([
  [1, 1, 0.15, 0.85],
  [1.5, 2.06, 0.3, 0.8],
])('the ninth ladder of a limb, errors %d times, scale %d', (errors, errorScale, mostFalse, leastFound) => {
  const policy = { ...DEFAULT_POLICY, errorScale };
  const tallies = { alone: tally(), together: tally() };

  it('finds more slips beside all earlier ladders than beside the last one, with few false questions', () => {
    for (const limb of ['leg', 'arm'] as const)
      for (const who of ['adult', 'child'] as const) {
        const random = seeded(77);
        const rest = { otherLimb: false, swelling: 0, where: 'whole', comesOver: 0, otherMeasurer: false } as const;
        for (let person = 0; person < PEOPLE; person++) {
          const { record } = coursePerson({ limb, who, visits: 9, days: 720, errors, ...rest }, heldOutLimbs(limb), random);
          const now = record.visits.at(-1) as Visit;
          const [series] = limbSeries({ ...record, visits: record.visits.slice(0, -1) }, policy);
          const before = series?.visits ?? [];
          const today = { day: dayNumber(now.day), body: bodyAt(record.visits, now.day, who === 'child'), tape: tapeSds(policy) };
          const ladder = spelled(now.ladders[0] as Ladder);
          count(tallies.alone, ladder, ladderAsTaped(before.at(-1) as SeriesVisit), today, 1000 + person);
          count(tallies.together, ladder, lastLadder(before, false, today.tape) as LastLadder, today, 1000 + person);
        }
      }
    const { alone, together } = tallies;
    for (const [beside, one] of Object.entries(tallies)) table.push({ errors: String(errors), beside, ...inWords(one) });
    expect(together.found).toBeGreaterThan(alone.found);
    expect(together.questions / together.ladders).toBeLessThanOrEqual(mostFalse);
    expect(together.found / together.planted).toBeGreaterThanOrEqual(leastFound);
  });
});

afterAll(() => console.table(table));

function tally(): Tally {
  return { ladders: 0, questions: 0, planted: 0, found: 0 };
}

function count(into: Tally, ladder: Ladder, last: LastLadder, today: TapingDay, seed: number): void {
  into.ladders += 1;
  into.questions += placesAsked(askedWhileTyping(ladder, last, today));
  for (const plant of Object.values(PLANTS)) {
    const error = plant(ladder, seeded(seed));
    if (!error) continue;
    into.planted += 1;
    const asked = askedWhileTyping(error.ladder, last, today);
    if (asked.some(({ distanceMm, kind }) => distanceMm === null || error.at.includes(distanceMm) || kind === 'shifted-rungs'))
      into.found += 1;
  }
}

function inWords({ ladders, questions, planted, found }: Tally): Record<string, string> {
  return { 'false, a ladder': (questions / ladders).toFixed(3), 'slips found': `${((100 * found) / planted).toFixed(1)} %` };
}

function spelled(ladder: Ladder): Ladder {
  const text = (nm: number) => exactText(nm, ladder.unit);
  return {
    ...ladder,
    rungs: ladder.rungs.map((rung) => (rung.girth ? { ...rung, girth: { ...rung.girth, text: text(rung.girth.nm) } } : rung)),
  };
}
