import { invertSymmetric } from '../statistics/invert-symmetric';
import type { CourseTerms, History, VisitLook } from './course';

/** Log girth of the judged limb at one visit as all visits together have it, against its first ladder; `taped` is what that day alone has. */
export type SmoothLevel = { readonly visit: number; readonly taped: number; readonly level: number; readonly sd: number };

/**
 * The limb's mean log girth at every visit, from every visit before and after it: what a chart draws as the limb, its marks being the tape's.
 *
 * y = x + e. Truth x: a flat level, own exponents on ln W and ln H, a random walk, and the steps of a history, each N(0, τ²) (a far or near one by
 * its share of the mean). Error e: reading, place and day of each visit, habits in all of theirs. With S = cov x + E and
 * P = S⁻¹ − S⁻¹1 (1′S⁻¹1)⁻¹ 1′S⁻¹: x̂ = y − E P y, covariance E − E P E; averaged over the histories by their weights, mean and spread.
 * The healthy other limb bears no witness here. Shape: visits in order, the share of mean girth of the far part at each, the model's terms, the
 * histories at the newest visit. A visit without both parts is left out; one alone gives nothing. Cost: one inverse of visits × visits a history.
 * Source: best linear unbiased prediction with a flat mean (Goldberger 1962, JASA 57:369); Bayesian model averaging.
 * Example: three visits with equal errors, no walk, no step: the mean of all three at each, SD σ / √3.
 */
export function smoothLevels(
  visits: readonly VisitLook[],
  farShareAt: (visit: number) => number,
  terms: CourseTerms,
  histories: readonly History[],
): readonly SmoothLevel[] {
  const seen = visits.flatMap((look, visit) => lookOf(look, visit, farShareAt(visit), terms));
  if (seen.length < 2) return [];
  const errors = seen.map((one, row) =>
    seen.map((other, column) => {
      const habits = one.look.habits.filter((habit) => other.look.habits.includes(habit));
      return habits.reduce((sum, habit) => sum + (terms.habits[habit] as number), row === column ? one.variance : 0);
    }),
  );
  const walk = terms.ownDrift + terms.commonDrift;
  const truth = seen.map(({ look: one }) =>
    seen.map(
      ({ look: other }) =>
        walk * Math.min(one.years, other.years) +
        terms.lnWeightVariance * one.lnWeight * other.lnWeight +
        terms.lnHeightVariance * one.lnHeight * other.lnHeight,
    ),
  );
  const sums = seen.map(() => ({ mean: 0, square: 0, weight: 0 }));
  for (const { visits: at, kinds, weight } of histories) {
    const size = (step: number, row: number): number => {
      const { visit, farShare } = seen[row] as Seen;
      if (visit < (at[step] as number)) return 0;
      return kinds[step] === 'far' ? farShare : kinds[step] === 'near' ? 1 - farShare : 1;
    };
    const withSteps = truth.map((cells, row) =>
      cells.map((cell, column) => at.reduce((sum, _, step) => sum + terms.stepVariance * size(step, row) * size(step, column), cell)),
    );
    const found = predict(
      seen.map(({ y }) => y),
      withSteps,
      errors,
    );
    found?.forEach(({ mean, variance }, row) => {
      const sum = sums[row] as (typeof sums)[0];
      sum.mean += weight * mean;
      sum.square += weight * (variance + mean ** 2);
      sum.weight += weight;
    });
  }
  return seen.flatMap(({ visit, y }, row) => {
    const { mean, square, weight } = sums[row] as (typeof sums)[0];
    if (!(weight > 0)) return [];
    const level = mean / weight;
    return [{ visit, taped: y, level, sd: Math.sqrt(Math.max(square / weight - level ** 2, 0)) }];
  });
}

/** A visit with both parts: mean log girth and the variance of its error, habits aside. */
type Seen = { readonly look: VisitLook; readonly visit: number; readonly farShare: number; readonly y: number; readonly variance: number };

function lookOf(look: VisitLook, visit: number, farShare: number, terms: CourseTerms): readonly Seen[] {
  const own = look.limbs.find(({ limb }) => limb === 0);
  if (!own) return [];
  const shares = terms.parts[0] === 1 ? [1] : [farShare, 1 - farShare];
  let y = 0;
  let variance = look.dayVariance;
  for (const [part, share] of shares.entries()) {
    const girth = own.girths[part];
    if (girth === null || girth === undefined) return [];
    y += share * girth;
    for (const [other, otherShare] of shares.entries()) variance += share * otherShare * (own.covariance[part]?.[other] as number);
  }
  return [{ look, visit, farShare, y, variance }];
}

function predict(y: readonly number[], truth: readonly (readonly number[])[], errors: readonly (readonly number[])[]) {
  const inverse = invertSymmetric(truth.map((cells, row) => cells.map((cell, column) => cell + (errors[row]?.[column] as number))));
  if (!inverse) return undefined;
  const dot = (one: readonly number[], other: readonly number[]): number =>
    one.reduce((sum, value, index) => sum + value * (other[index] as number), 0);
  const ones = inverse.map((row) => row.reduce((sum, value) => sum + value, 0));
  const all = ones.reduce((sum, value) => sum + value, 0);
  const projected = inverse.map((row, index) =>
    row.map((value, column) => value - ((ones[index] as number) * (ones[column] as number)) / all),
  );
  const pulled = projected.map((row) => dot(row, y));
  return errors.map((error, row) => {
    const through = projected.map((cells) => dot(cells, error));
    return { mean: (y[row] as number) - dot(error, pulled), variance: (error[row] as number) - dot(error, through) };
  });
}
