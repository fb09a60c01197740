import { normalReach } from './normal';

/** A straight line by weighted least squares, with an interval of its slope. */
export type LineOfBestFit = {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeSd: number;
  readonly low: number;
  readonly high: number;
  /** The time at which the line is surest, and its height there. */
  readonly middleTime: number;
  readonly middleValue: number;
  /** Scatter about the line against the known errors: 1 is as expected. Undefined with two values, which leave none. */
  readonly scatter: number | undefined;
};

/**
 * The straight line of least weighted squares, weights 1/SD², with each SD floored at the known error of one measurement.
 *
 * slope = Σw(t − t̄)(y − ȳ)/Σw(t − t̄)², SD of the slope = max(1, scatter)/√Σw(t − t̄)², scatter² = Σw·residual²/(n − 2).
 * The SD never falls below what the known error says, because few points can lie near a line by luck; it grows when they
 * scatter more. Interval: slope ± z·SD.
 * Shape: times and values of one length, SDs of the values (or one for all), the floor, confidence as a share.
 * Undefined with fewer than two different times or an SD that is not above zero.
 * Source: least squares (Gauss–Markov); the floor: our choice, because a child or limb is visited only a few times.
 * Example: 1, 3, 5 at times 0, 1, 2, SD 1 each: slope 2, intercept 1, SD of the slope 0.707.
 */
export function lineOfBestFit(
  times: readonly number[],
  values: readonly number[],
  sds: readonly number[] | number,
  leastSd: number,
  confidence = 0.95,
): LineOfBestFit | undefined {
  if (times.length !== values.length) return undefined;
  const weights = times.map((_, index) => 1 / Math.max(typeof sds === 'number' ? sds : (sds[index] ?? Number.NaN), leastSd) ** 2);
  if (!weights.every((weight) => weight > 0 && Number.isFinite(weight))) return undefined;
  const total = sum(weights, (weight) => weight);
  const middleTime = sum(weights, (weight, index) => weight * (times[index] as number)) / total;
  const middleValue = sum(weights, (weight, index) => weight * (values[index] as number)) / total;
  const spread = sum(weights, (weight, index) => weight * ((times[index] as number) - middleTime) ** 2);
  if (!(spread > 0)) return undefined;
  const slope =
    sum(weights, (weight, index) => weight * ((times[index] as number) - middleTime) * ((values[index] as number) - middleValue)) / spread;
  const residual = (index: number) => (values[index] as number) - middleValue - slope * ((times[index] as number) - middleTime);
  const free = values.length - 2;
  const scatter = free > 0 ? Math.sqrt(sum(weights, (weight, index) => weight * residual(index) ** 2) / free) : undefined;
  const slopeSd = Math.max(1, scatter ?? 1) / Math.sqrt(spread);
  const reach = normalReach(confidence) * slopeSd;
  return {
    slope,
    intercept: middleValue - slope * middleTime,
    slopeSd,
    low: slope - reach,
    high: slope + reach,
    middleTime,
    middleValue,
    scatter,
  };
}

function sum(weights: readonly number[], term: (weight: number, index: number) => number): number {
  return weights.reduce((total, weight, index) => total + term(weight, index), 0);
}
