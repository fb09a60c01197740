import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { fitLevel, type LevelPoint, zScoreOf } from '@/lib/alignment/level-fit';
import type { Spread } from '@/lib/ladder/doubt-limits';
import { seeded } from '@/tests/cohort/random';

const SPREAD: Spread = { level: 0.03, zeroMm: 6, tilt: 0.02, rung: 0.01 };

const random = seeded(71);
const POINTS = Array.from({ length: 9 }, (_, rung): LevelPoint => {
  const slope = 0.0015 + random.normal(0.0008);
  const tilt = (40 * rung - 160) / 250;
  return { y: 0.02 + 4 * slope - 0.01 * tilt + random.normal(0.012), slope, tilt, variance: (0.01 + 0.001 * rung) ** 2 };
});
const all = () => false;

/** The same by least squares over augmented rows, one a point and one a prior, with a general matrix library. */
function augmented(points: readonly LevelPoint[]) {
  const rows = points.map(({ slope, tilt, variance }) => [1, slope, tilt].map((x) => x / Math.sqrt(variance)));
  const priors = [SPREAD.level, SPREAD.zeroMm, SPREAD.tilt].map((sd, at) => [0, 1, 2].map((column) => (column === at ? 1 / sd : 0)));
  const y = [...points.map((point) => point.y / Math.sqrt(point.variance)), 0, 0, 0];
  const design = new Matrix([...rows, ...priors]);
  const mean = solve(design, Matrix.columnVector(y), true).to1DArray();
  const left = Matrix.sub(Matrix.columnVector(y), design.mmul(Matrix.columnVector(mean))).to1DArray();
  return { mean, chi2: left.reduce((sum, value) => sum + value ** 2, 0) };
}

describe('the level of a ladder against what is expected', () => {
  it('is the penalised least-squares solution of a general library, mean and sum of squares', () => {
    for (const points of [POINTS, POINTS.slice(0, 2), POINTS.slice(3)]) {
      const found = fitLevel(points, SPREAD, all);
      const { mean, chi2 } = augmented(points);
      mean.forEach((value, at) => {
        expect(found.mean[at]).toBeCloseTo(value, 9);
      });
      expect(found.chi2).toBeCloseTo(chi2, 9);
    }
  });

  it('leaves out what it is told to, and points that the reference does not reach', () => {
    const without = fitLevel(POINTS, SPREAD, (index) => index === 4);
    const gone = fitLevel(
      POINTS.map((point, index) => (index === 4 ? undefined : point)),
      SPREAD,
      all,
    );
    expect(without).toEqual(gone);
    expect(without.mean).toEqual(fitLevel([...POINTS.slice(0, 4), ...POINTS.slice(5)], SPREAD, all).mean);
  });

  it('without points is the prior, and a point is then as far off as its own error and all priors say', () => {
    const prior = fitLevel([], SPREAD, all);
    expect(prior.mean).toEqual([0, 0, 0]);
    expect(prior.chi2).toBe(0);
    const [point] = POINTS as [LevelPoint];
    const variance = point.variance + 0.03 ** 2 + (6 * point.slope) ** 2 + (0.02 * point.tilt) ** 2;
    expect(zScoreOf(point, prior)).toBeCloseTo(point.y / Math.sqrt(variance), 9);
  });
});
