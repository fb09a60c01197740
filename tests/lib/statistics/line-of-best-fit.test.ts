import fc from 'fast-check';
import { linearRegression } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { lineOfBestFit } from '@/lib/statistics/line-of-best-fit';

const point = fc.tuple(fc.integer({ min: 0, max: 2000 }), fc.double({ min: -100, max: 100, noNaN: true }));
const points = fc.uniqueArray(point, { minLength: 2, maxLength: 30, selector: ([time]) => time });

describe('the line of best fit', () => {
  it('agrees with the regression of simple-statistics when all values are equally sure', () => {
    fc.assert(
      fc.property(points, (pairs) => {
        const line = lineOfBestFit(
          pairs.map(([time]) => time),
          pairs.map(([, value]) => value),
          2,
          1,
        );
        const { m, b } = linearRegression(pairs.map(([time, value]) => [time, value]));
        if (!line) return false;
        return Math.abs(line.slope - m) < 1e-7 && Math.abs(line.intercept - b) < 1e-4;
      }),
      { seed: 1805, numRuns: 1000 },
    );
  });

  it('counts a value of weight four as four equal values (simple-statistics on the repeated list)', () => {
    const line = lineOfBestFit([0, 1, 2, 5], [1, 4, 3, 9], [1, 0.5, 1, 1], 0.1);
    const { m, b } = linearRegression([
      [0, 1],
      [1, 4],
      [1, 4],
      [1, 4],
      [1, 4],
      [2, 3],
      [5, 9],
    ]);
    expect(line?.slope).toBeCloseTo(m, 12);
    expect(line?.intercept).toBeCloseTo(b, 12);
  });

  it('has the slope SD of the closed form: quarterly visits of SEM 1.4 % give 4.0, 2.5, 1.8, 1.3 and 0.86 % a year', () => {
    // SD = SEM / √Σ(t − t̄)², t in years: visits 3, 4, 5, 6, 8 a quarter apart.
    for (const [visits, sd] of [
      [3, 3.96],
      [4, 2.5],
      [5, 1.77],
      [6, 1.34],
      [8, 0.864],
    ] as const) {
      const times = Array.from({ length: visits }, (_, visit) => visit / 4);
      const line = lineOfBestFit(
        times,
        times.map((time) => 3 * time),
        1.4,
        1.4,
      );
      expect(line?.slopeSd, `${visits} visits`).toBeCloseTo(sd, 2);
    }
  });

  it('never claims more than the known error allows, however near the line the few points lie', () => {
    const straight = lineOfBestFit([0, 1, 2, 3], [0, 1, 2, 3], 0.001, 0.5);
    expect(straight?.slopeSd).toBeCloseTo(0.5 / Math.sqrt(5), 12);
  });

  it('widens when the points scatter more than their known error', () => {
    const wild = lineOfBestFit([0, 1, 2, 3], [0, 4, -3, 5], 0.5, 0.5);
    expect(wild?.scatter).toBeGreaterThan(2);
    // Ordinary least squares by hand: slope 4/5, residual sum of squares 41 − 0.8²·5 = 37.8, SD √(37.8/2/5).
    expect(wild?.slope).toBeCloseTo(0.8, 12);
    expect(wild?.slopeSd).toBeCloseTo(Math.sqrt(37.8 / 2 / 5), 12);
  });

  it('has no line through one day, one value, lists of two lengths, or values without an error', () => {
    expect(lineOfBestFit([2, 2], [1, 3], 1, 1)).toBeUndefined();
    expect(lineOfBestFit([2], [1], 1, 1)).toBeUndefined();
    expect(lineOfBestFit([], [], 1, 1)).toBeUndefined();
    expect(lineOfBestFit([1, 2], [1], 1, 1)).toBeUndefined();
    expect(lineOfBestFit([1, 2], [1, 2], 0, 0)).toBeUndefined();
    expect(lineOfBestFit([1, 2], [1, 2], [1], 0.1)).toBeUndefined();
  });
});
