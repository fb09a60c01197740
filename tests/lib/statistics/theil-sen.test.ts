import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mannKendall } from '@/lib/statistics/mann-kendall';
import { theilSen } from '@/lib/statistics/theil-sen';

const inOrder = (values: readonly number[]) => values.map((_, index) => index);

describe('the Theil–Sen line', () => {
  it('gives the published slope and 95 % interval of the statpsych manual, with ties in time', () => {
    // R package statpsych, manual of ci.theil (method of Hollander and Wolfe): slope 0.5, 0.3243243 to 0.75, SE 0.1085927.
    const y = [21, 4, 9, 12, 35, 18, 10, 22, 24, 1, 6, 8, 13, 16, 19];
    const x = [67, 28, 30, 28, 52, 40, 25, 37, 44, 10, 14, 20, 28, 40, 51];
    const line = theilSen(x, y);
    expect(line?.slope).toBe(0.5);
    expect(line?.interval?.low).toBeCloseTo(0.3243243, 7);
    expect(line?.interval?.high).toBe(0.75);
    expect(((line?.interval?.high ?? 0) - (line?.interval?.low ?? 0)) / (2 * 1.959964)).toBeCloseTo(0.1085927, 6);
    expect(line?.pairs).toBe(101);
    expect(mannKendall(x, y)?.s).toBe(75);
  });

  it('gives slope 1 and 0 to 2 for the example series of US EPA QA/G-9S, page 109', () => {
    // Series as quoted from the EPA guidance; slope and interval recomputed independently with scipy 1.17 (theilslopes).
    const values = [10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15];
    const line = theilSen(inOrder(values), values);
    expect(line?.slope).toBe(1);
    expect(line?.interval).toEqual({ low: 0, high: 2 });
  });

  it('gives −9.1667 a step for the series of the Wisconsin Administrative Code, Mann–Kendall Table A', () => {
    // Slopes of the ten pairs by hand: −50 −7.5 −8.33 −12.5 35 12.5 0 −10 −17.5 −25; the middle two are −8.33 and −10.
    const values = [100, 50, 85, 75, 50];
    expect(theilSen(inOrder(values), values)?.slope).toBeCloseTo(-55 / 6, 12);
  });

  it('passes through median time and median value, and is read back exactly from a straight line', () => {
    const times = [3, 10, 40, 41, 90, 200];
    const line = theilSen(
      times,
      times.map((time) => 7 - 0.25 * time),
    );
    expect(line?.slope).toBeCloseTo(-0.25, 12);
    expect(line?.intercept).toBeCloseTo(7, 12);
    expect(line?.interval?.low).toBeCloseTo(-0.25, 12);
  });

  it('is not moved by one wild value among seven', () => {
    const times = [0, 1, 2, 3, 4, 5, 6];
    const wild = [0, 1, 2, 300, 4, 5, 6];
    expect(theilSen(times, wild)?.slope).toBe(1);
  });

  it('leaves out a slope of 0 exactly when the exact Mann–Kendall test finds a trend at 5 %, under ten values without ties', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: -1000, max: 1000 }), { minLength: 5, maxLength: 9 }), (values) => {
        const interval = theilSen(inOrder(values), values)?.interval;
        if (!interval) return false;
        const without0 = interval.low > 0 || interval.high < 0;
        return without0 === (mannKendall(inOrder(values), values)?.p ?? 1) <= 0.05;
      }),
      { seed: 1968, numRuns: 2000 },
    );
  });

  it('covers the true slope in about 95 of 100 made-up series of eight', () => {
    // Closed form: of 8 values |S| ≥ 18 has chance 0.031 and |S| ≥ 16 more than 0.05, so the interval holds the truth in 96.9 %. Seed fixed.
    let state = 12345;
    const random = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return (state + 0.5) / 4294967296;
    };
    let held = 0;
    for (let run = 0; run < 2000; run++) {
      const values = Array.from(
        { length: 8 },
        (_, index) => 0.3 * index + Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random()),
      );
      const interval = theilSen(inOrder(values), values)?.interval;
      if (interval && interval.low <= 0.3 && interval.high >= 0.3) held += 1;
    }
    expect(held / 2000).toBeGreaterThan(0.955);
    expect(held / 2000).toBeLessThan(0.982);
  });

  it('has no interval where even the steepest order is likelier than 5 %: two, three and four values', () => {
    for (const n of [2, 3, 4])
      expect(
        theilSen(
          inOrder(Array(n).fill(0)),
          Array.from({ length: n }, (_, i) => i),
        )?.interval,
      ).toBeNull();
  });

  it('has no line through nothing, one value, or values of one day', () => {
    expect(theilSen([], [])).toBeUndefined();
    expect(theilSen([1], [5])).toBeUndefined();
    expect(theilSen([3, 3, 3], [1, 2, 3])).toBeUndefined();
    expect(theilSen([1, 2], [1])).toBeUndefined();
  });
});
