import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import type { CourseTerms, History, VisitLook } from '@/lib/course-model/course';
import { smoothLevels } from '@/lib/course-model/smooth-levels';

const TERMS: CourseTerms = {
  parts: [1],
  habits: [],
  lnWeightVariance: 0,
  lnHeightVariance: 0,
  commonDrift: 0,
  ownDrift: 0,
  partDrift: 0,
  stepVariance: 0.05 ** 2,
  stepOdds: 1 / 4,
  mostSteps: 3,
  kept: 8,
};

const NO_STEP: History = { visits: [], kinds: [], sizes: [], covariance: [], weight: 1 };
const stepAt = (visits: readonly number[], weight = 1): History => ({ ...NO_STEP, visits, kinds: visits.map(() => 'whole'), weight });

function looksOf(own: readonly number[], error: number, rest: Partial<VisitLook> = {}): VisitLook[] {
  return own.map((y, index) => ({
    years: index / 4,
    dayVariance: 0,
    habits: [],
    lnWeight: 0,
    lnHeight: 0,
    mayStep: index > 0,
    limbs: [{ limb: 0, girths: [y], covariance: [[error ** 2]] }],
    ...rest,
  }));
}

const half = () => 0.5;

describe('the limb as all its visits have it', () => {
  it('is the mean of equal visits, SD σ/√n, where nothing may have changed (closed form)', () => {
    for (const n of [2, 3, 7]) {
      const own = Array.from({ length: n }, (_, index) => 0.01 * Math.sin(index));
      const mean = own.reduce((sum, value) => sum + value, 0) / n;
      const levels = smoothLevels(looksOf(own, 0.012), half, TERMS, [NO_STEP]);
      expect(levels.map(({ visit, taped }) => [visit, taped])).toEqual(own.map((value, visit) => [visit, value]));
      for (const { level, sd } of levels) {
        expect(level).toBeCloseTo(mean, 12);
        expect(sd).toBeCloseTo(0.012 / Math.sqrt(n), 12);
      }
    }
  });

  it('is the figure itself where anything may have happened in between', () => {
    const levels = smoothLevels(looksOf([0, 0.2], 0.012), half, { ...TERMS, stepVariance: 1e4 }, [stepAt([1])]);
    expect(levels[1]?.level).toBeCloseTo(0.2, 8);
    expect(levels[1]?.sd).toBeCloseTo(0.012, 8);
  });

  it('takes a step of one part by its share of the mean: of far as of a whole step of share × τ, of near as of (1 − share) × τ (algebra)', () => {
    const looks = looksOf([0, 0.01, 0.05, 0.04], 0.012);
    const levels = (kind: 'whole' | 'far' | 'near', scaled: number) =>
      smoothLevels(looks, () => 0.3, { ...TERMS, stepVariance: TERMS.stepVariance * scaled ** 2 }, [{ ...stepAt([2]), kinds: [kind] }]);
    const closeTo = (levels: ReturnType<typeof smoothLevels>) =>
      levels.map(({ level, sd }) => [expect.closeTo(level, 12), expect.closeTo(sd, 12)]);
    const figures = (levels: ReturnType<typeof smoothLevels>) => levels.map(({ level, sd }) => [level, sd]);
    expect(figures(levels('far', 1))).toEqual(closeTo(levels('whole', 0.3)));
    expect(figures(levels('near', 1))).toEqual(closeTo(levels('whole', 0.7)));
    expect(figures(levels('far', 1))).not.toEqual(closeTo(levels('near', 1)));
  });

  it('agrees with Henderson’s mixed model equations, solved by a general matrix library', () => {
    const own = [0, 0.011, -0.006, 0.041, 0.037, 0.05];
    const looks = looksOf(own, 0.012).map((look, index) => ({ ...look, habits: index % 2 === 0 ? [0] : [], lnWeight: 0.02 * index }));
    const terms = { ...TERMS, ownDrift: 0.0078 ** 2, habits: [0.009 ** 2], lnWeightVariance: 0.08 ** 2 };
    const levels = smoothLevels(looks, half, terms, [stepAt([3, 5])]);
    // Henderson 1975, Biometrics 31:423: [1′R⁻¹1, 1′R⁻¹Z; Z′R⁻¹1, Z′R⁻¹Z + G⁻¹], R of the errors of each day alone, every other effect in u.
    const n = own.length;
    const truth = [
      ...Array.from({ length: n - 1 }, (_, step) => ({
        z: own.map((_, row) => (row > step ? 1 : 0)),
        g: terms.ownDrift / 4,
        isTruth: true,
      })),
      ...[3, 5].map((at) => ({ z: own.map((_, row) => (row >= at ? 1 : 0)), g: terms.stepVariance, isTruth: true })),
      { z: looks.map(({ lnWeight }) => lnWeight), g: terms.lnWeightVariance, isTruth: true },
      { z: looks.map(({ habits }) => habits.length), g: terms.habits[0] as number, isTruth: false },
    ];
    const design = new Matrix(own.map((_, row) => [1, ...truth.map(({ z }) => z[row] as number)]));
    const weight = 1 / 0.012 ** 2;
    const penalty = Matrix.diag([0, ...truth.map(({ g }) => 1 / g)]);
    const solved = inverse(design.transpose().mmul(design).mul(weight).add(penalty));
    const found = solved
      .mmul(design.transpose())
      .mul(weight)
      .mmul(Matrix.columnVector([...own]));
    const toLevel = new Matrix(own.map((_, row) => [1, ...truth.map(({ z, isTruth }) => (isTruth ? (z[row] as number) : 0))]));
    const level = toLevel.mmul(found).to1DArray();
    const sd = toLevel.mmul(solved).mmul(toLevel.transpose()).diagonal().map(Math.sqrt);
    levels.forEach((one, row) => {
      expect(one.level).toBeCloseTo(level[row] as number, 10);
      expect(one.sd).toBeCloseTo(sd[row] as number, 10);
    });
  });

  it('mixes histories by their weights: mean, and a spread that holds both', () => {
    const looks = looksOf([0, 0.05], 0.012);
    const alone = [NO_STEP, stepAt([1])].map((one) => smoothLevels(looks, half, TERMS, [one])[1]);
    const mixed = smoothLevels(looks, half, TERMS, [
      { ...NO_STEP, weight: 0.25 },
      { ...stepAt([1]), weight: 0.75 },
    ])[1];
    const [none, stepped] = alone as unknown as [{ level: number; sd: number }, { level: number; sd: number }];
    const mean = 0.25 * none.level + 0.75 * stepped.level;
    expect(mixed?.level).toBeCloseTo(mean, 12);
    const square = 0.25 * (none.sd ** 2 + none.level ** 2) + 0.75 * (stepped.sd ** 2 + stepped.level ** 2);
    expect(mixed?.sd).toBeCloseTo(Math.sqrt(square - mean ** 2), 12);
  });

  it('leaves out a visit that tapes one part of two, and one alone gives nothing', () => {
    const covariance = [
      [0.0001, 0],
      [0, 0.0001],
    ];
    const looks = looksOf([0, 0, 0], 0.01).map((look, index) => ({
      ...look,
      limbs: [{ limb: 0, girths: index === 1 ? [0, null] : [0.02 * index, 0], covariance }],
    }));
    const levels = smoothLevels(looks, half, { ...TERMS, parts: [2] }, [NO_STEP]);
    expect(levels.map(({ visit, taped }) => [visit, taped])).toEqual([
      [0, 0],
      [2, 0.02],
    ]);
    expect(smoothLevels(looks.slice(0, 1), half, { ...TERMS, parts: [2] }, [NO_STEP])).toEqual([]);
  });
});
