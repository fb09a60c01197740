import { REACH_95 } from '../statistics/reach-95';

/** Factor on the variance of every error, and how many limbs it was learnt from. */
export type ErrorScale = { readonly variance: number; readonly n: number };

/** What one limb says of its errors: the whitened residual sum of its most probable history, and its degrees of freedom. */
export type Strain = { readonly strain: number; readonly degrees: number };

/** Limbs with three visits from which on a learnt factor counts in full. Clinic default. */
const FULL_FROM = 30;
/** Errors less than half or more than four times as assumed are no errors of the tape: copied figures, or another fault. Clinic default. */
const BELIEVED = { least: 0.25, most: 16 };

/**
 * How much larger the errors of a record are than assumed: one factor on the variance, learnt from limbs that were taped three times or more.
 *
 * Of each limb q / (m (1 − 2/(9m))³): q the whitened residual sum of its most probable history (so that a change is no error), m its degrees of
 * freedom, the divisor near the median of χ² with m degrees. The factor is the median over limbs, so a minority that did change does not move it; divided by what limbs whose
 * errors are as assumed give (`usual`), held between ¼ and 16, and shrunk towards 1
 * below thirty limbs: factor^(n/30).
 * Shape: q and m a limb; 1 with n = 0 where there is none. Source: Wilson and Hilferty 1931, PNAS 17:684 (the median); robust scale by the median.
 * Example: thirty limbs whose q is twice the median of their χ², usual 1: 2.
 */
export function learnErrorScale(limbs: readonly Strain[], usual: number): ErrorScale {
  const ratios = ratiosOf(limbs);
  const n = ratios.length;
  if (n === 0) return { variance: 1, n };
  const middle = ((ratios[Math.floor((n - 1) / 2)] as number) + (ratios[Math.ceil((n - 1) / 2)] as number)) / 2;
  return { variance: asFactor(middle, usual, n), n };
}

/**
 * The range that holds the learnt factor in nineteen of twenty records like this one; undefined below thirty limbs, where the factor is
 * drawn towards 1.
 *
 * The r-th smallest and the r-th largest ratio, r = n/2 − 1.96 √n / 2 rounded, taken as the factor is. Shape: as `learnErrorScale`.
 * Source: Campbell and Gardner 1988, BMJ 296:1454 (range of a median). Example: a hundred limbs: the 40th and the 61st ratio.
 */
export function errorScaleRange(limbs: readonly Strain[], usual: number): readonly [low: number, high: number] | undefined {
  const ratios = ratiosOf(limbs);
  const n = ratios.length;
  const rank = Math.round(n / 2 - (REACH_95 * Math.sqrt(n)) / 2);
  if (n < FULL_FROM) return undefined;
  return [asFactor(ratios[rank - 1] as number, usual, n), asFactor(ratios[n - rank] as number, usual, n)];
}

/** q over the median of χ² with its degrees, smallest first. */
function ratiosOf(limbs: readonly Strain[]): readonly number[] {
  return limbs
    .filter(({ degrees }) => degrees > 0)
    .map(({ strain, degrees }) => strain / (degrees * (1 - 2 / (9 * degrees)) ** 3))
    .sort((one, other) => one - other);
}

function asFactor(ratio: number, usual: number, n: number): number {
  return Math.min(Math.max(ratio / usual, BELIEVED.least), BELIEVED.most) ** Math.min(n / FULL_FROM, 1);
}
