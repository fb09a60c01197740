import { chiSquaredDistributionTable } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { learnErrorScale } from '@/lib/course-model/error-scale';
import { cumulativeNormal } from '@/lib/statistics/normal';

/** Medians of χ² from printed tables (Abramowitz and Stegun 1964, table 26.8; also in simple-statistics). */
const MEDIANS = Object.entries(chiSquaredDistributionTable as unknown as Record<string, Record<string, number>>).map(
  ([degrees, row]) => [Number(degrees), row['0.5'] as number] as const,
);

describe('the scale of error', () => {
  it('is 1 where every limb has the median of its χ², and the factor where all errors are larger', () => {
    const limbs = MEDIANS.filter(([degrees]) => degrees >= 4 && degrees <= 30).flatMap(([degrees, median]) => [
      { degrees, strain: median },
      { degrees, strain: median },
    ]);
    expect(limbs.length).toBeGreaterThanOrEqual(30);
    expect(learnErrorScale(limbs, 1).variance).toBeCloseTo(1, 2);
    const wider = limbs.map(({ degrees, strain }) => ({ degrees, strain: 2.25 * strain }));
    expect(learnErrorScale(wider, 1)).toEqual({ variance: expect.closeTo(2.25, 1), n: limbs.length });
  });

  it('is not moved by a minority that changed, and is shrunk towards 1 below thirty limbs: factor^(n/30)', () => {
    const median = 9 * (1 - 2 / 81) ** 3;
    const of = (n: number, strain: number) => Array.from({ length: n }, () => ({ degrees: 9, strain }));
    expect(learnErrorScale([...of(31, median), ...of(20, 90 * median)], 1).variance).toBeCloseTo(1, 9);
    expect(learnErrorScale(of(15, 2 * median), 1).variance).toBeCloseTo(Math.sqrt(2), 9);
    expect(learnErrorScale(of(30, 2 * median), 1).variance).toBeCloseTo(2, 9);
    expect(learnErrorScale([], 1)).toEqual({ variance: 1, n: 0 });
    expect(learnErrorScale(of(30, 0), 1).variance).toBe(0.25);
  });
});

describe('the share of a normal below z', () => {
  it('is that of the tables (Abramowitz and Stegun 1964, table 26.1)', () => {
    for (const [z, share] of [
      [0, 0.5],
      [1, 0.841344746068543],
      [2, 0.977249868051821],
      [3, 0.99865010196837],
      [-1.96, 0.02499789514822],
      [-8, 6.22096057427e-16],
    ] as const)
      expect(cumulativeNormal(z)).toBeCloseTo(share, 13);
  });
});
