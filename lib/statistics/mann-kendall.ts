import { exactKendallTail } from './kendall-null';
import { cumulativeNormal } from './normal';

/** Kendall's S over dated values, with the chance of one as far from 0 when there is no trend. */
export type MannKendall = {
  /** Pairs that rise less pairs that fall. */
  readonly s: number;
  /** Variance of S when there is no trend, ties counted. */
  readonly variance: number;
  /** (|S| − 1) / √variance with the sign of S, 0 when S is 0. */
  readonly z: number;
  /** Two-sided. */
  readonly p: number;
  readonly method: 'exact' | 'normal';
};

/** From this many values the normal distribution stands in for the exact one. Source: common practice (Mann 1945; Kendall 1975). */
export const NORMAL_FROM = 10;

/** Sizes of the groups of equal values that hold more than one. */
function tiedGroups(values: readonly number[]): number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()].filter((count) => count > 1);
}

/**
 * Kendall's S: the sum over pairs of sign(tj − ti)·sign(yj − yi). Pairs at one time or of one value count 0.
 *
 * Example: 100, 50, 85, 75, 50 in order of time has S −5.
 */
export function kendallS(times: readonly number[], values: readonly number[]): number {
  let s = 0;
  for (let later = 1; later < values.length; later++) {
    for (let earlier = 0; earlier < later; earlier++) {
      s +=
        Math.sign((times[later] as number) - (times[earlier] as number)) *
        Math.sign((values[later] as number) - (values[earlier] as number));
    }
  }
  return s;
}

/**
 * Variance of S when there is no trend, with ties in values (sizes t) and in times (sizes u).
 *
 * [n(n−1)(2n+5) − Σt(t−1)(2t+5) − Σu(u−1)(2u+5)]/18 + Σt(t−1)·Σu(u−1)/(2n(n−1)) + Σt(t−1)(t−2)·Σu(u−1)(u−2)/(9n(n−1)(n−2)).
 * Shape: two lists of one length. Source: Kendall 1975, Rank Correlation Methods, with ties in both rankings.
 * Example: 15 values without ties: 408.33; times with ties of 3 and 2 among them: 403.67.
 */
export function kendallVariance(times: readonly number[], values: readonly number[]): number {
  const n = values.length;
  if (n < 2) return 0;
  const t = tiedGroups(values);
  const u = tiedGroups(times);
  const sum = (sizes: readonly number[], term: (size: number) => number) => sizes.reduce((total, size) => total + term(size), 0);
  const spread = (size: number) => size * (size - 1) * (2 * size + 5);
  const pairs = (size: number) => size * (size - 1);
  const triples = (size: number) => size * (size - 1) * (size - 2);
  const both = (sum(t, pairs) * sum(u, pairs)) / (2 * pairs(n));
  const threes = n > 2 ? (sum(t, triples) * sum(u, triples)) / (9 * triples(n)) : 0;
  return (spread(n) - sum(t, spread) - sum(u, spread)) / 18 + both + threes;
}

/**
 * The Mann–Kendall test for a trend up or down over time, whatever its shape.
 *
 * Exact under 10 values, ties included: the chance of |S| at least as large over all orders of the values. Normal with
 * continuity and tie corrections from 10.
 * Shape: times in any unit and order, values beside them. Undefined with fewer than 2 values or lists of two lengths.
 * All values equal, or all at one time: p is 1.
 * Source: Mann 1945, Econometrica 13:245; Kendall 1975; US EPA QA/G-9S.
 * Example: 10 10 10 5 10 20 18 17 15 24 15 in order: S 22, z 1.685, p 0.092.
 */
export function mannKendall(times: readonly number[], values: readonly number[]): MannKendall | undefined {
  if (values.length < 2 || values.length !== times.length) return undefined;
  const s = kendallS(times, values);
  const variance = kendallVariance(times, values);
  const z = s === 0 || variance <= 0 ? 0 : (Math.sign(s) * (Math.abs(s) - 1)) / Math.sqrt(variance);
  if (values.length < NORMAL_FROM) return { s, variance, z, p: exactKendallTail(times, values, Math.abs(s)), method: 'exact' };
  return { s, variance, z, p: s === 0 ? 1 : Math.min(1, 2 * cumulativeNormal(-Math.abs(z))), method: 'normal' };
}
