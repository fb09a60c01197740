import { REACH_95 } from '../statistics/reach-95';

/** Volumes of one limb, ml: a list a measurer, each with the same number of repeats. */
export type StudiedLimb = readonly (readonly number[])[];

/**
 * What part of the spread of a measurer study comes from where, ml², and what it means for two measurements.
 *
 * `within` is the SEM when one person measures twice, `between` when two people do; `smallestDifference` is what two measurements must
 * differ by at 95 %. `agreement` is the intraclass correlation; it is near 1 wherever limbs differ much, so it never stands alone.
 */
export type MeasurerStudy = {
  readonly mean: number;
  readonly components: { readonly limbs: number; readonly measurers: number; readonly together: number; readonly repeats: number };
  readonly within: { readonly sem: number; readonly smallestDifference: number };
  readonly between: { readonly sem: number; readonly smallestDifference: number };
  readonly agreement: number;
  /** What the components were made of, for their ranges; where two were pooled, both are the pooled one. */
  readonly layout: StudyLayout;
};

/** How many limbs, measurers and repeats, and the mean squares with their degrees of freedom. */
export type StudyLayout = {
  readonly limbs: number;
  readonly measurers: number;
  readonly repeats: number;
  readonly squares: { readonly measurers: number; readonly together: number; readonly repeats: number };
  readonly free: { readonly measurers: number; readonly together: number; readonly repeats: number };
};

/**
 * Variance components of a crossed study: limbs × measurers × repeats, every measurer every limb.
 *
 * Mean squares of a two-way layout with repeats; σ²ₑ = MSₑ, σ²ₚᵣ = (MSₚᵣ − MSₑ)/m, σ²ᵣ = (MSᵣ − MSₚᵣ)/(pm), σ²ₚ = (MSₚ − MSₚᵣ)/(rm).
 * Where σ²ₚᵣ comes out below zero it is zero, and both mean squares are pooled by their degrees of freedom; no component is below zero.
 * SEM within = √σ²ₑ, between = √(σ²ₑ + σ²ₚᵣ + σ²ᵣ); smallest difference = 1.96·√2·SEM; agreement = σ²ₚ/(all four).
 * Shape: at least two limbs, two measurers, two repeats, none missing; else undefined. Source: Searle, Casella, McCulloch 1992, Variance
 * Components, chapter 4. Example: tests/lib/service/measurer-study.test.ts, five limbs by three measurers.
 */
export function measurerStudy(limbs: readonly StudiedLimb[]): MeasurerStudy | undefined {
  const [p, r, m] = [limbs.length, limbs[0]?.length ?? 0, limbs[0]?.[0]?.length ?? 0];
  const isWhole = limbs.every((limb) => limb.length === r && limb.every((repeats) => repeats.length === m));
  if (p < 2 || r < 2 || m < 2 || !isWhole) return undefined;
  const cells = limbs.map((limb) => limb.map(mean));
  const ofLimb = cells.map(mean);
  const ofMeasurer = Array.from({ length: r }, (_, rater) => mean(cells.map((limb) => limb[rater] as number)));
  const whole = mean(ofLimb);
  const squares = {
    limbs: (r * m * sumOfSquares(ofLimb, whole)) / (p - 1),
    measurers: (p * m * sumOfSquares(ofMeasurer, whole)) / (r - 1),
    together:
      (m *
        sum(cells.flatMap((limb, i) => limb.map((cell, j) => (cell - (ofLimb[i] as number) - (ofMeasurer[j] as number) + whole) ** 2)))) /
      ((p - 1) * (r - 1)),
    repeats: sum(limbs.flatMap((limb, i) => limb.map((repeats, j) => sumOfSquares(repeats, cells[i]?.[j] as number)))) / (p * r * (m - 1)),
  };
  const free = { together: (p - 1) * (r - 1), repeats: p * r * (m - 1) };
  const isPooled = squares.together < squares.repeats;
  const pooled = (squares.together * free.together + squares.repeats * free.repeats) / (free.together + free.repeats);
  const repeats = isPooled ? pooled : squares.repeats;
  const interaction = isPooled ? pooled : squares.together;
  const pooledFree = free.together + free.repeats;
  const components = {
    limbs: Math.max(0, (squares.limbs - interaction) / (r * m)),
    measurers: Math.max(0, (squares.measurers - interaction) / (p * m)),
    together: isPooled ? 0 : (squares.together - squares.repeats) / m,
    repeats,
  };
  const all = components.limbs + components.measurers + components.together + components.repeats;
  return {
    mean: whole,
    components,
    within: errorOf(components.repeats),
    between: errorOf(components.repeats + components.together + components.measurers),
    agreement: all > 0 ? components.limbs / all : 0,
    layout: {
      ...{ limbs: p, measurers: r, repeats: m },
      squares: { measurers: squares.measurers, together: interaction, repeats },
      free: { measurers: r - 1, together: isPooled ? pooledFree : free.together, repeats: isPooled ? pooledFree : free.repeats },
    },
  };
}

/**
 * Technical error of measurement from pairs: √(Σd²/2n). Undefined without a pair.
 *
 * Source: WHO Multicentre Growth Reference Study 2006, Acta Paediatr S450:38. Example: pairs 2010 2022, 1765 1752, …: 10.0995.
 */
export function technicalError(pairs: readonly (readonly [number, number])[]): number | undefined {
  if (pairs.length === 0) return undefined;
  return Math.sqrt(sum(pairs.map(([one, other]) => (one - other) ** 2)) / (2 * pairs.length));
}

/** Two measurers or methods on the same limbs: what one reads more than the other, and the limits between which 95 % of differences lie. */
export type Agreement = {
  readonly bias: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
  readonly biasError: number;
  readonly limitError: number;
};

/**
 * Limits of agreement: bias ± 1.96·SD of the differences, with the standard errors SD/√n of the bias and SD·√(1/n + 1.96²/2(n − 1)) of a limit.
 *
 * Shape: pairs on the same limb, the second less the first; undefined with fewer than three. Source: Bland and Altman 1999, Stat Methods Med
 * Res 8:135. Example: bias 27.8, SD 9.4446: 9.289 to 46.311, errors 4.224 and 7.789.
 */
export function agreementOf(pairs: readonly (readonly [number, number])[]): Agreement | undefined {
  const n = pairs.length;
  if (n < 3) return undefined;
  const differences = pairs.map(([first, second]) => second - first);
  const bias = mean(differences);
  const sd = Math.sqrt(sumOfSquares(differences, bias) / (n - 1));
  const [low, high] = [bias - REACH_95 * sd, bias + REACH_95 * sd];
  return { bias, sd, low, high, biasError: sd / Math.sqrt(n), limitError: sd * Math.sqrt(1 / n + REACH_95 ** 2 / (2 * (n - 1))) };
}

function errorOf(variance: number): { readonly sem: number; readonly smallestDifference: number } {
  const sem = Math.sqrt(variance);
  return { sem, smallestDifference: REACH_95 * Math.SQRT2 * sem };
}

function sumOfSquares(values: readonly number[], middle: number): number {
  return sum(values.map((value) => (value - middle) ** 2));
}

function mean(values: readonly number[]): number {
  return sum(values) / values.length;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
