import type { Spread } from '../ladder/doubt-limits';
import { invertSymmetric } from '../statistics/invert-symmetric';
import type { ReferenceLine, TapedRung } from './reference-line';

/** A rung against what is expected of it: y = ln(taped / expected), how y goes with a moved zero (per mm) and with tilt, and its variance. */
export type LevelPoint = {
  readonly y: number;
  readonly slope: number;
  readonly tilt: number;
  readonly variance: number;
};

const HALF_STEP_MM = 10;

/**
 * A taped girth at a place against a reference line; undefined where the reference does not reach.
 *
 * Variance: the reading and those behind what is expected, and what a rung may differ by alone. Tilt counts half-lengths of 250 mm from a middle of 300 mm.
 * Example: 312 mm where one reading leads to expect 300, 3 mm a reading, 0.6 % a rung: y 0.039, variance 2 × 0.01² + 0.006² = 0.000236.
 */
export function levelPoint(girthMm: number, atMm: number, reference: ReferenceLine): LevelPoint | undefined {
  const expected = reference.expectedMm(atMm);
  if (expected === undefined) return undefined;
  const below = reference.expectedMm(atMm - HALF_STEP_MM);
  const above = reference.expectedMm(atMm + HALF_STEP_MM);
  const rise = (above ?? expected) - (below ?? expected);
  const run = (above === undefined ? 0 : HALF_STEP_MM) + (below === undefined ? 0 : HALF_STEP_MM);
  const slope = run > 0 ? rise / run / expected : 0;
  const readings = 1 + 1 / reference.ladders(atMm);
  const variance = readings * (reference.readingMm / expected) ** 2 + reference.spread.rung ** 2;
  return {
    y: Math.log(girthMm / expected),
    slope,
    tilt: (atMm - 300) / 250,
    variance,
  };
}

/** Level, moved zero and tilt that fit the points best, with their covariance and the penalised sum of squares. */
export type LevelFit = {
  readonly mean: readonly [number, number, number];
  readonly covariance: readonly (readonly number[])[];
  readonly chi2: number;
};

/**
 * The level, zero and tilt by which a ladder differs from its reference as a whole, by least squares with the priors of `spread`.
 *
 * Minimises Σ (y − a − s·slope − t·tilt)² / v + (a/σ_a)² + (s/σ_s)² + (t/σ_t)². Without points it is the prior.
 * Source: ridge (Gaussian prior) regression, any text of statistics.
 * Example: every girth 4 % larger and a prior of 3 %: the more rungs, the nearer the level is to ln 1.04.
 */
export function fitLevel(points: readonly (LevelPoint | undefined)[], spread: Spread, leaveOut: (index: number) => boolean): LevelFit {
  const priors = [spread.level, spread.zeroMm, spread.tilt];
  const information = priors.map((prior, row) => priors.map((_, column) => (row === column ? 1 / prior ** 2 : 0)));
  const target = [0, 0, 0];
  points.forEach((point, index) => {
    if (!point || leaveOut(index)) return;
    const x = [1, point.slope, point.tilt];
    for (let row = 0; row < 3; row++) {
      target[row] = (target[row] as number) + ((x[row] as number) * point.y) / point.variance;
      const cells = information[row] as number[];
      for (let column = 0; column < 3; column++)
        cells[column] = (cells[column] as number) + ((x[row] as number) * (x[column] as number)) / point.variance;
    }
  });
  const covariance =
    invertSymmetric(information) ?? priors.map((prior, row) => priors.map((_, column) => (row === column ? prior ** 2 : 0)));
  const at = (row: number) => (covariance[row] as number[]).reduce((sum, value, column) => sum + value * (target[column] as number), 0);
  const mean = [at(0), at(1), at(2)] as const;
  let chi2 = mean.reduce((sum, value, row) => sum + (value / (priors[row] as number)) ** 2, 0);
  points.forEach((point, index) => {
    if (point && !leaveOut(index)) chi2 += residual(point, { mean }) ** 2 / point.variance;
  });
  return { mean, covariance, chi2 };
}

/**
 * How far a point lies from what the other points lead one to expect, in SDs; positive when the girth is larger.
 *
 * Example: y 0.0392, variance 0.000236, a fit of 0 that is sure: 2.55.
 */
export function zScoreOf(point: LevelPoint, fit: LevelFit): number {
  return residual(point, fit) / predictionSd(point, fit);
}

/**
 * SD of a new reading about what the fit leads one to expect there, as a logarithm: √(v + x C xᵀ) with x = (1, slope, tilt).
 *
 * Example: variance 0.000236 and a level known to 1 %: √0.000336 = 0.0183.
 */
export function predictionSd(point: LevelPoint, fit: LevelFit): number {
  const x = [1, point.slope, point.tilt];
  let variance = point.variance;
  for (let row = 0; row < 3; row++)
    for (let column = 0; column < 3; column++)
      variance += (x[row] as number) * (x[column] as number) * ((fit.covariance[row] as number[])[column] as number);
  return Math.sqrt(variance);
}

/**
 * How far a point lies from what the fit leads one to expect, as a logarithm.
 *
 * Example: y 0.05, level 0.03, no shift, no tilt: 0.02.
 */
export function residual(point: LevelPoint, { mean }: Pick<LevelFit, 'mean'>): number {
  return point.y - mean[0] - mean[1] * point.slope - mean[2] * point.tilt;
}

/** Each rung's point against a reference, in the order of the rungs. Example: a rung beyond the reference has none. */
export function levelPoints(rungs: readonly TapedRung[], reference: ReferenceLine): (LevelPoint | undefined)[] {
  return rungs.map(({ girth, atMm }) => levelPoint(girth.nm / 1e6, atMm, reference));
}
