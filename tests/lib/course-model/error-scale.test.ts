import { chiSquaredDistributionTable } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { type LimbStrain, scaleWithRange } from '@/lib/analysis/record-error-scale';
import { errorScaleRange, learnErrorScale } from '@/lib/course-model/error-scale';
import { cumulativeNormal } from '@/lib/statistics/normal';
import { visitOf } from '../made-up-ladder';

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

  it('does not hang on the order of the limbs, nor does its range', () => {
    const limbs = Array.from({ length: 45 }, (_, index) => ({ degrees: 3 + (index % 5), strain: (index * 7) % 11 }));
    const shuffled = [...limbs].sort((one, other) => one.strain - other.strain || other.degrees - one.degrees);
    expect(learnErrorScale(shuffled, 1)).toEqual(learnErrorScale(limbs, 1));
    expect(errorScaleRange(shuffled, 1)).toEqual(errorScaleRange(limbs, 1));
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

describe('the range of a learnt scale', () => {
  /** Campbell and Gardner 1988, BMJ 296:1454, table of ranks for a median (95 %): from memory; the coverage below is worked out. */
  const RANKS = [
    [50, 18, 33],
    [100, 40, 61],
  ] as const;
  const ranked = (n: number) =>
    Array.from({ length: n }, (_, index) => ({ degrees: 9, strain: 9 * (1 - 2 / 81) ** 3 * (1 + (index + 1) / 1000) }));

  it.each(RANKS)('of %i limbs runs from the ratio of rank %i to that of rank %i', (n, low, high) => {
    const range = errorScaleRange(ranked(n), 1) ?? [];
    expect(range[0]).toBeCloseTo(1 + low / 1000, 9);
    expect(range[1]).toBeCloseTo(1 + high / 1000, 9);
  });

  it('holds the median in about 95 % of samples: binomial sums, exact', () => {
    for (const n of [30, 57, 100, 400]) {
      const range = errorScaleRange(ranked(n), 1) ?? [0, 0];
      const rank = Math.round((range[0] - 1) * 1000);
      let term = 0.5 ** n;
      let below = 0;
      for (let k = 0; k < rank; k++) {
        below += term;
        term *= (n - k) / (k + 1);
      }
      expect(1 - 2 * below).toBeGreaterThan(0.93);
      expect(1 - 2 * below).toBeLessThan(0.975);
    }
  });

  it('is not given below thirty limbs, where the factor is drawn towards 1', () => {
    expect(errorScaleRange(ranked(29), 1)).toBeUndefined();
    expect(errorScaleRange(ranked(30), 1)).toBeDefined();
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

describe('the scale by measurer', () => {
  const median = 9 * (1 - 2 / 81) ** 3;
  const limb = (measurer: string | null, factor: number): LimbStrain => ({
    ...{ strain: factor * 0.95 * median, degrees: 9, measurer, visit: { ...visitOf('2026-01-05', []), measurer } },
  });
  const of = (n: number, measurer: string | null, factor: number) => Array.from({ length: n }, () => limb(measurer, factor));

  it('is given of each who taped thirty limbs alone, whatever the others do', () => {
    const learnt = scaleWithRange([...of(40, 'R. Adeyemi', 1), ...of(30, 'K. Doan', 2.25), ...of(29, 'L. Pell', 9), ...of(50, null, 4)]);
    expect(learnt.measurers.map(({ measurer, n, variance }) => [measurer, n, Number(variance.toFixed(3))])).toEqual([
      ['R. Adeyemi', 40, 1],
      ['K. Doan', 30, 2.25],
    ]);
    expect(learnt.n).toBe(149);
  });
});
