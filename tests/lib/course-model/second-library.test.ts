import { CholeskyDecomposition, inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import type { CourseTerms, StepKind, VisitLook } from '@/lib/course-model/course';
import { followCourse } from '@/lib/course-model/follow-course';
import { readChange } from '@/lib/course-model/read-change';
import { type Random, seeded } from '@/tests/cohort/random';

/**
 * A second opinion: the same model written down as one dense Gaussian over all figures at once and solved with a general library (ml-matrix),
 * restricted likelihood by its definition; nothing recursive, no diffuse start, no pruning.
 */
const TERMS: CourseTerms = {
  parts: [2, 2],
  habits: [0.9e-4],
  lnWeightVariance: 0.0064,
  lnHeightVariance: 0.0144,
  commonDrift: 0.8e-4,
  ownDrift: 0.3e-4,
  partDrift: 0.2e-4,
  stepVariance: 0.0025,
  stepOdds: 0.25,
  mostSteps: 2,
  kept: 500,
};

function madeUp(visits: number, random: Random): VisitLook[] {
  return Array.from({ length: visits }, (_, visit): VisitLook => {
    const limbs = [0, 1].map((limb) => {
      const [far, near] = [1e-4 * (0.5 + random.uniform()), 1e-4 * (0.5 + random.uniform())];
      const both = 0.4 * Math.sqrt(far * near) * (random.uniform() - 0.5);
      return {
        limb,
        girths: [random.normal(0.02), random.normal(0.02)],
        covariance: [
          [far, both],
          [both, near],
        ],
      };
    });
    const seen = visit > 0 && random.uniform() < 0.2 ? limbs.slice(0, 1) : limbs;
    return {
      years: visit * 0.3,
      dayVariance: 0.2e-4 * (1 + random.uniform()),
      habits: random.uniform() < 0.5 ? [0] : [],
      lnWeight: random.normal(0.05),
      lnHeight: random.normal(0.02),
      mayStep: visit > 0,
      limbs: seen,
    };
  });
}

type Figure = { readonly visit: number; readonly look: VisitLook; readonly limb: number; readonly part: number; readonly y: number };

function figuresOf(visits: readonly VisitLook[]): Figure[] {
  return visits.flatMap((look, visit) =>
    look.limbs.flatMap(({ limb, girths }) => girths.flatMap((y, part) => (y === null ? [] : [{ visit, look, limb, part, y }]))),
  );
}

function covarianceOf(figures: readonly Figure[], steps: readonly { visit: number; kind: StepKind }[]): Matrix {
  const hit = (one: Figure, kind: StepKind, visit: number): number =>
    one.limb === 0 && one.visit >= visit && (kind === 'whole' || (kind === 'far') === (one.part === 0)) ? 1 : 0;
  return new Matrix(
    figures.map((one) =>
      figures.map((other) => {
        const years = Math.min(one.look.years, other.look.years);
        const sameLimb = one.limb === other.limb;
        let sum = TERMS.lnWeightVariance * one.look.lnWeight * other.look.lnWeight;
        sum += TERMS.lnHeightVariance * one.look.lnHeight * other.look.lnHeight + TERMS.commonDrift * years;
        if (sameLimb) sum += TERMS.ownDrift * years;
        if (sameLimb && one.part === other.part) sum += TERMS.partDrift * years;
        if (one.visit === other.visit) sum += one.look.dayVariance;
        if (one.look.habits.length > 0 && other.look.habits.length > 0) sum += TERMS.habits[0] as number;
        if (one.visit === other.visit && sameLimb)
          sum += one.look.limbs.find(({ limb }) => limb === one.limb)?.covariance[one.part]?.[other.part] ?? 0;
        for (const { visit, kind } of steps) sum += TERMS.stepVariance * hit(one, kind, visit) * hit(other, kind, visit);
        return sum;
      }),
    ),
  );
}

const lnDeterminant = (matrix: Matrix): number =>
  // Rounding leaves the last bit of a product unsymmetric, which the library refuses.
  2 *
  new CholeskyDecomposition(matrix.clone().add(matrix.transpose()).mul(0.5)).lowerTriangularMatrix
    .diagonal()
    .reduce((sum, value) => sum + Math.log(value), 0);

/** Restricted log likelihood and the matrix P of Gauss–Markov with flat levels. */
function restricted(figures: readonly Figure[], covariance: Matrix) {
  const y = Matrix.columnVector(figures.map((one) => one.y));
  const levels = new Matrix(figures.map((one) => [0, 1, 2, 3].map((level) => (level === 2 * one.limb + one.part ? 1 : 0))));
  const inner = inverse(covariance);
  const information = levels.transpose().mmul(inner).mmul(levels);
  const P = inner.clone().sub(inner.mmul(levels).mmul(inverse(information)).mmul(levels.transpose()).mmul(inner));
  const q = y.transpose().mmul(P).mmul(y).get(0, 0);
  return { q, P, y, lnLikelihood: -0.5 * (q + lnDeterminant(covariance) + lnDeterminant(information)) };
}

describe('the joint model against a general library', () => {
  it('has the same evidence, sizes and strain for every history of up to two steps, two limbs of two parts, drift, habit, exponents', () => {
    const random = seeded(77);
    for (let round = 0; round < 4; round++) {
      const visits = madeUp(4, random);
      const figures = figuresOf(visits);
      const last = followCourse(visits, TERMS).at(-1);
      const none = restricted(figures, covarianceOf(figures, []));
      const [noStep, ...stepped] = last?.histories ?? [];
      expect(last?.strain).toBeCloseTo(none.q, 7);
      expect(stepped.length).toBeGreaterThanOrEqual(9);
      for (const history of stepped) {
        const steps = history.visits.map((visit, index) => ({ visit, kind: history.kinds[index] as StepKind }));
        const own = restricted(figures, covarianceOf(figures, steps));
        const share = (kind: StepKind) => (kind === 'whole' ? 0.5 : 0.25);
        const places = steps.length === 1 ? 3 : 3;
        const prior = steps.reduce((sum, { kind }) => sum + Math.log(0.25 * share(kind)), 0) - Math.log(places);
        expect(Math.log(history.weight / (noStep?.weight ?? 0))).toBeCloseTo(own.lnLikelihood - none.lnLikelihood + prior, 7);
        if (steps.length !== 1) continue;
        const [step] = steps as [(typeof steps)[0]];
        const h = Matrix.columnVector(
          figures.map(({ limb, part, visit }) =>
            limb === 0 && visit >= step.visit && (step.kind === 'whole' || (step.kind === 'far') === (part === 0)) ? 1 : 0,
          ),
        );
        const information = h.transpose().mmul(none.P).mmul(h).get(0, 0) + 1 / TERMS.stepVariance;
        expect(history.sizes[0]).toBeCloseTo(h.transpose().mmul(none.P).mmul(none.y).get(0, 0) / information, 9);
        expect(history.covariance[0]).toBeCloseTo(1 / information, 9);
      }
    }
  });
});

describe('the joint model against direct integration', () => {
  it('has the probability that a sum over a fine grid of step sizes gives: one limb, three visits', () => {
    const y = [0, 0.012, 0.031];
    const error = 0.013 ** 2;
    const terms = { ...TERMS, parts: [1], habits: [], commonDrift: 0, ownDrift: 0, partDrift: 0, mostSteps: 1 };
    const visits = y.map(
      (girth, visit): VisitLook => ({
        years: visit,
        dayVariance: 0,
        habits: [],
        lnWeight: 0,
        lnHeight: 0,
        mayStep: visit > 0,
        limbs: [{ limb: 0, girths: [girth], covariance: [[error]] }],
      }),
    );
    // Level by the sample mean: ∫ Π N(y_i; level + size·[i ≥ j], error) d level ∝ exp(−Σ (r_i − r̄)² / 2 error).
    const likelihood = (size: number, from: number): number => {
      const rest = y.map((girth, visit) => girth - (visit >= from ? size : 0));
      const mean = rest.reduce((sum, one) => sum + one, 0) / rest.length;
      return Math.exp(-rest.reduce((sum, one) => sum + (one - mean) ** 2, 0) / 2 / error);
    };
    const step = 0.0001;
    const integral = (from: number): number => {
      let sum = 0;
      for (let size = -0.4; size <= 0.4; size += step) sum += likelihood(size, from) * Math.exp(-(size ** 2) / 2 / 0.0025);
      return (sum * step) / Math.sqrt(2 * Math.PI * 0.0025);
    };
    const [one, two] = [1, 2].map((from) => integral(from) / likelihood(0, 3)) as [number, number];
    const said = readChange(followCourse(visits, terms).at(-1) as never, 0, 1);
    expect(said?.probability).toBeCloseTo((one + two) / 2 / (4 + (one + two) / 2), 7);
  });
});
