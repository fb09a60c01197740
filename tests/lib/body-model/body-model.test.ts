import fc from 'fast-check';
import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { readBodyTable } from '@/lib/body-model/body-table';
import { jointFigures } from '@/lib/body-model/given-the-others';
import { GROWN_BODIES } from '@/lib/body-model/grown-bodies';
import { usualBody } from '@/lib/body-model/usual-body';
import { MEASURES } from '@/lib/parts/catalogue';
import { calendarDay } from '@/lib/units/calendar-day';
import { bodyTableText } from '@/tests/body-model/learn-body-table';
import { surveyPeople } from '@/tests/body-model/survey';

const DAY = calendarDay('2026-03-02');
const GROWN = calendarDay('1986-05-04');

/** A covariance of so many figures that has an inverse: A Aᵀ + a little of each. */
const covariances = fc.integer({ min: 2, max: 7 }).chain((size) =>
  fc
    .array(fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: size, maxLength: size }), {
      minLength: size,
      maxLength: size,
    })
    .map((rows) => Matrix.add(new Matrix(rows).mmul(new Matrix(rows).transpose()), Matrix.eye(size).mul(0.2)).to2DArray()),
);

describe('what the others expect of a figure', () => {
  it('the example of its doc block: correlation 0.8', () => {
    const joint = jointFigures(
      [1, 0],
      [0, 0],
      [
        [1, 0.8],
        [0.8, 1],
      ],
    );
    expect(joint?.expected(1).mean).toBeCloseTo(0.8, 12);
    expect(joint?.expected(1).sd).toBeCloseTo(0.6, 12);
  });

  /* Independent: the conditional law by blocks of the covariance, S₁₂ S₂₂⁻¹, with the matrix library ml-matrix. */
  it('equals the conditional law by blocks, with any figures taken out', () => {
    fc.assert(
      fc.property(covariances, fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 }), (covariance, first, second) => {
        const size = covariance.length;
        const [target, out] = [first % size, second % size];
        const figures = covariance.map((_, index) => Math.sin(index + 1));
        const means = covariance.map((_, index) => index / 10);
        const joint = jointFigures(figures, means, covariance);
        const without = target !== out && size > 2;
        const found = (without ? joint?.without(out) : joint)?.expected(target);
        const rest = covariance.map((_, index) => index).filter((index) => index !== target && !(without && index === out));
        const block = new Matrix(rest.map((row) => rest.map((column) => covariance[row]?.[column] as number)));
        const across = Matrix.rowVector(rest.map((column) => covariance[target]?.[column] as number));
        const weights = across.mmul(inverse(block));
        const apart = Matrix.columnVector(rest.map((index) => (figures[index] as number) - (means[index] as number)));
        const mean = (means[target] as number) + weights.mmul(apart).get(0, 0);
        const variance = (covariance[target]?.[target] as number) - weights.mmul(across.transpose()).get(0, 0);
        expect(found?.mean).toBeCloseTo(mean, 8);
        expect(found?.sd).toBeCloseTo(Math.sqrt(variance), 8);
      }),
      { numRuns: 200 },
    );
  });
});

describe('the tables of grown bodies', () => {
  it.each(['M', 'F'] as const)('are what the survey gives, to the last digit (%s)', (sex) => {
    expect(GROWN_BODIES[sex].trim()).toBe(bodyTableText(surveyPeople(sex)));
  });

  /* Correlations men / women printed on the research page, section 4. */
  it.each([
    ['hand-girth', 'hand-breadth', 0.92, 0.89],
    ['hand-girth', 'wrist-girth', 0.77, 0.74],
    ['foot-length', 'height', 0.72, 0.72],
    ['neck-girth', 'weight', 0.79, 0.77],
    ['head-girth', 'weight', 0.5, 0.38],
    ['waist-girth-navel', 'hip-girth', 0.88, 0.8],
  ] as const)('%s goes with %s as printed: %d, %d', (one, other, men, women) => {
    for (const [sex, printed] of [
      ['M', men],
      ['F', women],
    ] as const) {
      const { variables, correlation } = readBodyTable(GROWN_BODIES[sex]);
      expect(Math.abs((correlation[variables.indexOf(one)]?.[variables.indexOf(other)] as number) - printed)).toBeLessThan(0.02);
    }
  });
});

describe('a usual body', () => {
  it('sex X lies between the two and spreads over both', () => {
    const [man, woman, either] = (['M', 'F', 'X'] as const).map((sex) => usualBody({ born: GROWN, sex }, DAY));
    const [m, f, x] = [man, woman, either].map((body) => body?.mean('hand-girth') as number) as [number, number, number];
    expect(x).toBeCloseTo((m + f) / 2, 9);
    const half = (m - f) / 2;
    const own = ((man?.covariance('hand-girth', 'hand-girth') as number) + (woman?.covariance('hand-girth', 'hand-girth') as number)) / 2;
    expect(either?.covariance('hand-girth', 'hand-girth')).toBeCloseTo(own + half * half, 9);
  });

  it.each(['2025-09-01', '2023-06-01', '2018-06-01', '2011-01-01', '2008-04-01', '1990-01-01'])(
    'of somebody born on %s has a covariance with an inverse over all measures at once',
    (born) => {
      for (const sex of ['F', 'M', 'X'] as const) {
        const usual = usualBody({ born: calendarDay(born), sex }, DAY);
        const all = ['height', 'weight', ...MEASURES.map(({ id }) => id)];
        const rows = all.map((one, row) => all.map((other, column) => usual.covariance(one, other) + (row === column ? 1e-5 : 0)));
        const joint = jointFigures(all.map(usual.mean), all.map(usual.mean), rows);
        expect(all.every((_, index) => (joint?.expected(index).sd ?? 0) > 0)).toBe(true);
      }
    },
  );
});
