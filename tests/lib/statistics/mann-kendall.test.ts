import { describe, expect, it } from 'vitest';
import { exactKendallTail } from '@/lib/statistics/kendall-null';
import { kendallS, kendallVariance, mannKendall } from '@/lib/statistics/mann-kendall';
import { cumulativeNormal, normalReach } from '@/lib/statistics/normal';

const inOrder = (values: readonly number[]) => values.map((_, index) => index);

/** Every order of the values, one after another: the slow, plain count that the program's recurrences must agree with. */
function tailByListing(times: readonly number[], values: readonly number[], size: number): number {
  let all = 0;
  let far = 0;
  const walk = (rest: readonly number[], chosen: readonly number[]): void => {
    if (rest.length === 0) {
      all += 1;
      if (Math.abs(kendallS(times, chosen)) >= size) far += 1;
    }
    rest.forEach((value, index) => {
      walk([...rest.slice(0, index), ...rest.slice(index + 1)], [...chosen, value]);
    });
  };
  walk(values, []);
  return far / all;
}

describe('the Mann–Kendall test', () => {
  it('gives the published S, variance and Z of US EPA QA/G-9S, page 109', () => {
    // Series, S 22, ties of 4 and 2, variance 155.33 and Z 1.685 as quoted from the guidance; p 0.0920 recomputed.
    const values = [10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15];
    const test = mannKendall(inOrder(values), values);
    expect(test?.s).toBe(22);
    expect(test?.variance).toBeCloseTo(155.3333, 4);
    expect(test?.z).toBeCloseTo(1.685, 3);
    expect(test?.p).toBeCloseTo(0.092, 4);
    expect(test?.method).toBe('normal');
  });

  it('counts ties in time into the variance: 403.6667 for the statpsych series', () => {
    // [15·14·35 − 3·2·11 − 2·1·9]/18 by hand.
    const y = [21, 4, 9, 12, 35, 18, 10, 22, 24, 1, 6, 8, 13, 16, 19];
    const x = [67, 28, 30, 28, 52, 40, 25, 37, 44, 10, 14, 20, 28, 40, 51];
    expect(kendallVariance(x, y)).toBeCloseTo(403.6667, 4);
  });

  it('is, with ties in times and values at once, the variance of S over all orders of the values, listed', () => {
    for (const [times, values] of [
      [
        [0, 0, 1, 2, 2, 2],
        [5, 5, 5, 7, 8, 8],
      ],
      [
        [1, 1, 1, 2, 3],
        [4, 4, 9, 9, 9],
      ],
    ] as const) {
      const all = ordersOf(values).map((order) => kendallS(times, order));
      const mean = all.reduce((sum, s) => sum + s, 0) / all.length;
      const listed = all.reduce((sum, s) => sum + (s - mean) ** 2, 0) / all.length;
      expect(kendallVariance(times, values)).toBeCloseTo(listed, 9);
    }
  });

  it('gives S −5 for the series of the Wisconsin Administrative Code, Table A', () => {
    expect(kendallS([0, 1, 2, 3, 4], [100, 50, 85, 75, 50])).toBe(-5);
  });

  it('needs the S of the Wisconsin Administrative Code, Table B, for a one-sided level of 0.2', () => {
    // S needed for n = 4 … 10: 4 5 6 7 8 10 11. S of n values without ties has the parity of n(n−1)/2, so the table's figure is
    // the smallest S or the whole number just under it.
    [4, 5, 6, 7, 8, 10, 11].forEach((needed, index) => {
      const values = Array.from({ length: index + 4 }, (_, place) => place);
      const oneSided = (size: number) => exactKendallTail(inOrder(values), values, size) / 2;
      expect(oneSided(needed), `n ${index + 4}`).toBeLessThanOrEqual(0.2);
      expect(oneSided(needed - 2), `n ${index + 4}`).toBeGreaterThan(0.2);
    });
  });

  it('has the exact two-sided p of small series without ties', () => {
    // Kendall 1975 and independent counts: n 3 S 3 .333; n 4 S 6 .083; n 5 S 10 .017, S 8 .083; n 6 S 13 .017, S 11 .056; n 7 S 15 .030; n 8 S 18 .031.
    for (const [n, s, p] of [
      [3, 3, 0.333],
      [4, 6, 0.083],
      [5, 10, 0.017],
      [5, 8, 0.083],
      [6, 13, 0.017],
      [6, 11, 0.056],
      [7, 15, 0.03],
      [8, 18, 0.031],
    ] as const) {
      const values = Array.from({ length: n }, (_, place) => place);
      expect(exactKendallTail(inOrder(values), values, s), `n ${n} S ${s}`).toBeCloseTo(p, 3);
    }
  });

  it('counts every order exactly: values tied, times tied, both tied, none tied', () => {
    const cases: readonly (readonly [number[], number[]])[] = [
      [
        [0, 1, 2, 3, 4, 5, 6],
        [3, 1, 4, 9, 5, 2, 6],
      ],
      [
        [0, 1, 2, 3, 4, 5],
        [1, 2, 2, 3, 3, 3],
      ],
      [
        [0, 0, 1, 2, 2, 2],
        [6, 1, 5, 2, 4, 3],
      ],
      [
        [0, 0, 1, 1, 2, 3, 3],
        [5, 5, 5, 7, 8, 8, 9],
      ],
      [
        [4, 1, 1, 9],
        [2, 2, 7, 1],
      ],
    ];
    for (const [times, values] of cases) {
      for (let size = 0; size <= 21; size++) {
        expect(exactKendallTail(times, values, size), `${times} ${values} ${size}`).toBeCloseTo(tailByListing(times, values, size), 12);
      }
    }
  });

  it('uses the exact chance at nine values and the normal one from ten', () => {
    const nine = [5, 1, 7, 2, 8, 3, 9, 4, 10];
    expect(mannKendall(inOrder(nine), nine)?.method).toBe('exact');
    const ten = [...nine, 6];
    expect(mannKendall(inOrder(ten), ten)?.method).toBe('normal');
  });

  it('turns its sign with the direction of time and keeps its p', () => {
    const values = [4, 4, 6, 7, 9, 8];
    const forward = mannKendall(inOrder(values), values);
    const backward = mannKendall(inOrder(values), [...values].reverse());
    expect(forward?.s).toBe(-(backward?.s ?? 0));
    expect(forward?.p).toBeCloseTo(backward?.p ?? -1, 12);
  });

  it('finds no trend, p 1, when all values are equal or all of one day, and has nothing to say of one value', () => {
    expect(mannKendall([0, 1, 2], [5, 5, 5])?.p).toBe(1);
    expect(mannKendall([2, 2, 2], [1, 2, 3])?.p).toBe(1);
    const flat = Array(12).fill(3);
    expect(mannKendall(inOrder(flat), flat)?.p).toBe(1);
    expect(mannKendall([0], [1])).toBeUndefined();
    expect(mannKendall([0, 1], [1])).toBeUndefined();
  });
});

describe('the normal distribution', () => {
  it('has the figures of its printed tables', () => {
    // Common tables: Φ(−1.959963985) = 0.025, Φ(1) = 0.841344746, Φ(−3) = 0.001349898, Φ(−6) = 9.8659e−10.
    expect(cumulativeNormal(-1.959963985)).toBeCloseTo(0.025, 9);
    expect(cumulativeNormal(1)).toBeCloseTo(0.841344746, 9);
    expect(cumulativeNormal(-3)).toBeCloseTo(0.001349898, 9);
    expect(cumulativeNormal(-6)).toBeCloseTo(9.8659e-10, 12);
    expect([cumulativeNormal(0), cumulativeNormal(-40), cumulativeNormal(40)]).toEqual([0.5, 0, 1]);
    expect(normalReach(0.95)).toBeCloseTo(1.959963985, 9);
    expect(normalReach(0.9)).toBeCloseTo(1.644853627, 9);
  });
});

/** Every order of a few values. */
function ordersOf(values: readonly number[]): number[][] {
  if (values.length < 2) return [[...values]];
  return values.flatMap((first, at) => ordersOf([...values.slice(0, at), ...values.slice(at + 1)]).map((rest) => [first, ...rest]));
}
