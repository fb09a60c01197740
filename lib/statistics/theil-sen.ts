import { medianSorted } from 'simple-statistics';
import { exactKendallTail } from './kendall-null';
import { kendallVariance, NORMAL_FROM } from './mann-kendall';
import { normalReach } from './normal';

/** A straight line through dated values that a few odd values do not bend. */
export type TheilSen = {
  /** Median of the slopes of all pairs, value per unit of time. */
  readonly slope: number;
  /** median(values) − slope × median(times): the line's height at time 0. */
  readonly intercept: number;
  /** The interval of the slope, or null where so few values allow none at this confidence. */
  readonly interval: { readonly low: number; readonly high: number } | null;
  /** How many pairs had two different times. */
  readonly pairs: number;
};

/**
 * The Theil–Sen line: slope = median of (yj − yi)/(tj − ti) over all pairs of different times.
 *
 * Interval: the N slopes sorted, ranks (N − C)/2 and (N + C)/2 + 1, rounded, with C = z·√variance of Kendall's S (ties counted).
 * Under 10 values without ties C comes from the exact distribution instead, so the interval leaves out 0 exactly when
 * `mannKendall` finds a trend at the same level; under 5 values there is no 95 % interval.
 * Shape: times in any unit and order, values beside them, confidence as a share. Undefined with no two different times.
 * Source: Theil 1950; Sen 1968, J Am Stat Assoc 63:1379; Hollander and Wolfe 1999, Nonparametric Statistical Methods.
 * Example: y 1, 2, 4 at times 0, 1, 2: slopes 1, 1.5, 2, so slope 1.5 and intercept 0.5.
 */
export function theilSen(times: readonly number[], values: readonly number[], confidence = 0.95): TheilSen | undefined {
  if (times.length !== values.length) return undefined;
  const slopes = pairSlopes(times, values);
  if (slopes.length === 0) return undefined;
  const slope = medianSorted(slopes);
  return {
    slope,
    intercept: medianSorted(inOrder(values)) - slope * medianSorted(inOrder(times)),
    interval: slopeInterval(slopes, times, values, confidence),
    pairs: slopes.length,
  };
}

function pairSlopes(times: readonly number[], values: readonly number[]): number[] {
  const slopes: number[] = [];
  for (let later = 1; later < values.length; later++) {
    for (let earlier = 0; earlier < later; earlier++) {
      const run = (times[later] as number) - (times[earlier] as number);
      if (run !== 0) slopes.push(((values[later] as number) - (values[earlier] as number)) / run);
    }
  }
  return slopes.sort((a, b) => a - b);
}

function inOrder(figures: readonly number[]): number[] {
  return [...figures].sort((a, b) => a - b);
}

function slopeInterval(
  slopes: readonly number[],
  times: readonly number[],
  values: readonly number[],
  confidence: number,
): { low: number; high: number } | null {
  const rank = lowerRank(slopes.length, times, values, confidence);
  if (rank < 1) return null;
  return { low: slopes[rank - 1] as number, high: slopes[slopes.length - rank] as number };
}

/** Rank from either end, counted from 1; below 1 there is no such slope. (N + C)/2 + 1 from below is (N − C)/2 from above. */
function lowerRank(pairs: number, times: readonly number[], values: readonly number[], confidence: number): number {
  const noTies = new Set(times).size === times.length && new Set(values).size === values.length;
  if (values.length < NORMAL_FROM && noTies) return exactRank(pairs, times, values, 1 - confidence);
  return Math.round((pairs - normalReach(confidence) * Math.sqrt(kendallVariance(times, values))) / 2);
}

/** The largest rank whose two outer tails, |S| ≥ N − 2(rank − 1), are no likelier than alpha. */
function exactRank(pairs: number, times: readonly number[], values: readonly number[], alpha: number): number {
  let rank = 0;
  while (2 * rank < pairs && exactKendallTail(times, values, pairs - 2 * rank) <= alpha) rank++;
  return rank;
}
