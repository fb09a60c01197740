import { describe, expect, it } from 'vitest';
import { readBodyTable } from '@/lib/body-model/body-table';
import { GROWN_BODIES } from '@/lib/body-model/grown-bodies';
import { usualBody } from '@/lib/body-model/usual-body';
import { jointlyExpected, observationsOf } from '@/lib/doubts/measure-observations';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { childRecord, surveyChildren } from './children';

const VARIABLES = ['height', 'weight', 'hand-length', 'foot-length', 'wrist-girth', 'ankle-girth'] as const;

/** Of each child, how far its figures lie from what is usual at its age, in SDs; and from what its other figures expect. */
function childrenApart() {
  return surveyChildren().flatMap((child) => {
    const record = childRecord(child);
    const [visit] = record.visits;
    if (!visit) return [];
    const usual = usualBody(record, visit.day);
    const observations = observationsOf(record, visit, [], DEFAULT_POLICY);
    const joint = jointlyExpected(record, visit.day, observations, usual);
    const ofAge = new Map<string, number>();
    const ofOthers = new Map<string, number>();
    observations.forEach(({ variable, log }, index) => {
      ofAge.set(variable, (log - usual.mean(variable)) / Math.sqrt(usual.covariance(variable, variable)));
      const expected = joint?.expected(index);
      if (expected) ofOthers.set(variable, (log - expected.mean) / expected.sd);
    });
    return [{ ofAge, ofOthers }];
  });
}

function correlationOf(pairs: readonly (readonly [number, number])[]): number {
  const mean = (place: 0 | 1) => pairs.reduce((sum, pair) => sum + pair[place], 0) / pairs.length;
  const [one, other] = [mean(0), mean(1)];
  const product = (first: 0 | 1, second: 0 | 1) =>
    pairs.reduce((sum, pair) => sum + (pair[first] - (first ? other : one)) * (pair[second] - (second ? other : one)), 0);
  return product(0, 1) / Math.sqrt(product(0, 0) * product(1, 1));
}

/* Snyder 1977, tests/reference/body: 3,800 children of 2 to 18 years. What is checked is the stand-in for what their survey does not have. */
describe('children as grown people of their age', () => {
  const children = childrenApart();
  const table = readBodyTable(GROWN_BODIES.M);

  it('their measures go together as those of grown men do, within 0.3, and if otherwise more closely', () => {
    const pairs = VARIABLES.flatMap((one, row) => VARIABLES.slice(0, row).map((other) => [one, other] as const));
    const differences = pairs.map(([one, other]) => {
      const both = children.flatMap(({ ofAge }): [number, number][] => {
        const [first, second] = [ofAge.get(one), ofAge.get(other)];
        return first === undefined || second === undefined ? [] : [[first, second]];
      });
      expect(both.length).toBeGreaterThan(1000);
      const grown = table.correlation[table.variables.indexOf(one)]?.[table.variables.indexOf(other)] as number;
      return correlationOf(both) - grown;
    });
    for (const difference of differences) expect(Math.abs(difference)).toBeLessThan(0.3);
    expect(differences.reduce((sum, difference) => sum + difference, 0) / differences.length).toBeGreaterThan(0);
  });

  it.each(VARIABLES.slice(2))('%s: the stated spread about what the others expect holds, 0.75 to 1.05 times', (variable) => {
    const apart = children.flatMap(({ ofOthers }) => ofOthers.get(variable) ?? []);
    const spread = Math.sqrt(apart.reduce((sum, value) => sum + value * value, 0) / apart.length);
    expect(spread).toBeGreaterThan(0.75);
    expect(spread).toBeLessThan(1.05);
  });
});
