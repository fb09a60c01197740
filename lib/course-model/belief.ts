/**
 * What is believed of the unknowns of one history: a Gaussian with its evidence so far.
 *
 * `covariance` is stored row by row with a fixed stride; the first `size` unknowns are in use.
 */
export type Belief = {
  size: number;
  readonly stride: number;
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
  /** Restricted log likelihood of what was seen, without constants. */
  evidence: number;
  /** Whitened residual sum of squares and how many residuals went into it: about χ² with as many degrees under the history. */
  strain: number;
  degrees: number;
};

/**
 * A belief of so many unknowns with independent priors, room for more up to the stride. Shape: variances; mean 0.
 *
 * Example: variances 4 and 1 with a stride of 3: rows 4 0 0, 0 1 0 and 0 0 0.
 */
export function beliefOf(variances: readonly number[], stride: number): Belief {
  const covariance = new Float64Array(stride * stride);
  variances.forEach((variance, index) => {
    covariance[index * stride + index] = variance;
  });
  return { size: variances.length, stride, mean: new Float64Array(stride), covariance, evidence: 0, strain: 0, degrees: 0 };
}

/**
 * The same belief with one more unknown of mean 0, in the memory of one that is no longer needed where there is one.
 *
 * Example: to two unknowns one of variance 9: size 3, 9 in the third row’s third cell.
 */
export function withUnknown(belief: Belief, variance: number, unneeded?: Belief): Belief {
  const { size, stride, evidence, strain, degrees } = belief;
  const copy = unneeded ?? beliefOf([], stride);
  copy.mean.set(belief.mean);
  copy.covariance.set(belief.covariance);
  copy.covariance[size * stride + size] = variance;
  return Object.assign(copy, { size: size + 1, evidence, strain, degrees });
}

/**
 * Variance added to one unknown, or to two that move together.
 *
 * Example: 0.01 on unknown 0 alone: its variance 0.04 becomes 0.05.
 */
export function widen({ covariance, stride }: Belief, one: number, other: number, variance: number): void {
  covariance[one * stride + other] = (covariance[one * stride + other] as number) + variance;
  if (one !== other) covariance[other * stride + one] = (covariance[other * stride + one] as number) + variance;
}

/**
 * An unknown of the day begins anew: mean 0, its prior, nothing shared with the others.
 *
 * Example: a tension known to 0.2 % after a visit is again as unsure as its prior on the next day.
 */
export function renew({ mean, covariance, stride, size }: Belief, at: number, variance: number): void {
  for (let other = 0; other < size; other++) {
    covariance[at * stride + other] = 0;
    covariance[other * stride + at] = 0;
  }
  covariance[at * stride + at] = variance;
  mean[at] = 0;
}

/** A linear look at some of the unknowns: Σ by·unknown, `count` of them in use. */
export type Weights = { readonly at: Int32Array; readonly by: Float64Array; count: number };

/** Work space of `observe`, so that inner loops allocate nothing. */
let gain = new Float64Array(64);

/** Fills `gain` with Ph and gives h'Ph, leaving out the unknown `except` (−1: none). */
function spreadOf({ size, stride, covariance }: Belief, { at, by, count }: Weights, except: number): number {
  if (gain.length < size) gain = new Float64Array(2 * size);
  for (let row = 0; row < size; row++) {
    let sum = 0;
    const start = row * stride;
    for (let index = 0; index < count; index++) {
      const column = at[index] as number;
      if (column !== except) sum += (covariance[start + column] as number) * (by[index] as number);
    }
    gain[row] = sum;
  }
  let spread = 0;
  for (let index = 0; index < count; index++) {
    const row = at[index] as number;
    if (row !== except) spread += (gain[row] as number) * (by[index] as number);
  }
  return spread;
}

/** What a look should give by what is believed, leaving out the unknown `except`. */
function expectedOf({ mean }: Belief, { at, by, count }: Weights, except: number): number {
  let sum = 0;
  for (let index = 0; index < count; index++)
    if (at[index] !== except) sum += (by[index] as number) * (mean[at[index] as number] as number);
  return sum;
}

/**
 * One look: y = Σ by·unknown + error. The belief takes it in, and its evidence with it.
 *
 * v = y − h'm, F = h'Ph + variance, m ← m + Phv/F, P ← P − Phh'P/F; evidence −½ (v²/F + ln F).
 * Changes the belief in place. Source: recursive least squares; Kalman 1960.
 * Example: prior variance 1, variance 1, y = 2: mean 1, variance ½.
 */
export function observe(belief: Belief, weights: Weights, y: number, variance: number): void {
  const { size, stride, mean, covariance } = belief;
  const spread = variance + spreadOf(belief, weights, -1);
  const surprise = y - expectedOf(belief, weights, -1);
  const pull = surprise / spread;
  for (let row = 0; row < size; row++) {
    const own = gain[row] as number;
    if (own === 0) continue;
    mean[row] = (mean[row] as number) + own * pull;
    const share = own / spread;
    const start = row * stride;
    for (let column = 0; column < size; column++)
      covariance[start + column] = (covariance[start + column] as number) - share * (gain[column] as number);
  }
  belief.evidence -= 0.5 * (surprise * pull + Math.log(spread));
  belief.strain += surprise * pull;
  belief.degrees += 1;
}

/**
 * The first look at an unknown of which nothing was known (coefficient 1): it takes the look's value, and no evidence comes of it.
 *
 * With x the others: unknown = y − h'x − error, so its covariance with x is −Ph and its variance h'Ph + variance. The evidence that follows
 * is the restricted likelihood: that of the differences from the first look, whose determinant is |S| |L'S⁻¹L|.
 * Changes the belief in place. Source: exact diffuse start, de Jong 1991, Annals of Statistics 19:1073.
 * Example: y = 3 with variance 1 and nothing else: mean 3, variance 1.
 */
export function introduce(belief: Belief, unknown: number, weights: Weights, y: number, variance: number): void {
  const { size, stride, mean, covariance } = belief;
  const spread = variance + spreadOf(belief, weights, unknown);
  mean[unknown] = y - expectedOf(belief, weights, unknown);
  for (let row = 0; row < size; row++) {
    if (row === unknown) continue;
    covariance[row * stride + unknown] = -(gain[row] as number);
    covariance[unknown * stride + row] = -(gain[row] as number);
  }
  covariance[unknown * stride + unknown] = spread;
}
