import { readFileSync } from 'node:fs';
import path from 'node:path';
import { linearRegression, mean, standardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { bodyModelSd, girthFactor } from '@/lib/growth/expected-girth';
import { printTable } from '@/tests/cohort/print-table';

/** Calf of the Berkeley Guidance Study: the same children at 9 and 18 years (Tuddenham and Snyder 1954; tests/reference/body). */
const CHILDREN = readFileSync(path.resolve(import.meta.dirname, '../../reference/body/berkeley_guidance_9_18.csv'), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((row) => row.split(','))
  .map(([, sex, , , weight9, height9, calf9, weight18, height18, calf18]) => ({
    sex: sex as 'F' | 'M',
    weightRatio: Number(weight18) / Number(weight9),
    heightRatio: Number(height18) / Number(height9),
    calfRatio: Number(calf18) / Number(calf9),
  }));

/** Where the largest calf lies: 69 % of the way from the ankle to the knee (ANSUR II 2012). */
const CALF = 0.69;

describe('how far a grown limb wanders', () => {
  // The corners of the line as it is stated (engine section 5), and half-way between them.
  it.each([
    [0, 0.007],
    [0.25, 0.0085],
    [0.5, 0.01],
    [0.75, 0.0125],
    [1, 0.015],
    [2, 0.0225],
    [3, 0.03],
    [10, 0.03],
  ])('is after %d years %d', (years, sd) => {
    for (const sign of [1, -1]) expect(bodyModelSd(sign * years * 365.25)).toBeCloseTo(sd, 12);
  });
});

describe('the girth that a child’s weight and height lead one to expect', () => {
  const errors = (sex: 'F' | 'M', factor: (child: (typeof CHILDREN)[number]) => number) =>
    CHILDREN.filter((child) => child.sex === sex).map((child) => child.calfRatio / factor(child) - 1);

  it('meets the calf at 18 from 9 years, nine years on, with a bias below 3 % and an SD below 4 %; no growth assumed misses by a quarter', () => {
    const rows = (['M', 'F'] as const).map((sex) => {
      const rule = errors(sex, (child) => girthFactor('leg', true, CALF, child.weightRatio, child.heightRatio));
      const root = errors(sex, (child) => Math.sqrt(child.weightRatio / child.heightRatio));
      const none = errors(sex, () => 1);
      expect(rule.length).toBeGreaterThanOrEqual(30);
      expect(Math.abs(mean(rule))).toBeLessThan(0.03);
      expect(standardDeviation(rule)).toBeLessThan(0.04);
      expect(mean(none)).toBeGreaterThan(0.2);
      return [sex, ...[rule, root, none].flatMap((one) => [(100 * mean(one)).toFixed(1), (100 * standardDeviation(one)).toFixed(1)])];
    });
    printTable(
      'Berkeley calf from 9 to 18 years, error in per cent',
      ['sex', 'rule bias', 'SD', '√(W/H) bias', 'SD', 'no growth bias', 'SD'],
      rows,
    );
  });

  it('has the weight exponent of the children themselves: a regression of ln calf on ln weight at equal height gives 0.38 to 0.55', () => {
    const points = CHILDREN.map((child): [number, number] => [
      Math.log(child.weightRatio) - (0.3 * Math.log(child.heightRatio)) / 0.45,
      Math.log(child.calfRatio),
    ]);
    const { m } = linearRegression(points);
    expect(m).toBeGreaterThan(0.38);
    expect(m).toBeLessThan(0.55);
  });

  it('is unsure by the clinic’s line: 0.7 % at once, 1 % at half a year, 1.5 % at a year, 3 % from three years on', () => {
    expect([0, 365.25 / 2, 365.25, 3 * 365.25, 9 * 365.25].map((days) => Number(bodyModelSd(days).toFixed(4)))).toEqual([
      0.007, 0.01, 0.015, 0.03, 0.03,
    ]);
  });

  it('follows weight alone in adults: 70 to 77 kg is 1.1^0.42 at the calf', () => {
    expect(girthFactor('leg', false, CALF, 1.1, 1)).toBeCloseTo(1.1 ** 0.42, 12);
  });
});
