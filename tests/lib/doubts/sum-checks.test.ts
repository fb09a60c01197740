import { describe, expect, it } from 'vitest';
import { SUM_CHECKS } from '@/lib/doubts/sum-checks';
import { surveyPeople } from '@/tests/body-model/survey';

/** Mean and SD (n − 1). */
function usualOf(values: readonly number[]) {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { mean, sd: Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1)) };
}

/* ANSUR II 2012, tests/reference/body: worked out anew from the rows. */
describe('usual sums of grown people', () => {
  it.each(SUM_CHECKS.map((check) => [check.id, check] as const))('%s are those of the survey', (_id, check) => {
    for (const sex of ['M', 'F'] as const) {
      const values = surveyPeople(sex).map(({ of }) => check.figure(...check.of.map((id) => (of.get(id) as number) / 10)));
      const found = usualOf(values);
      expect(Math.abs(found.mean - check[sex].mean)).toBeLessThan(0.01 * found.sd);
      expect(Math.abs(found.sd / check[sex].sd - 1)).toBeLessThan(0.006);
    }
  });
});

/* Research page on hand, foot, trunk and head, section 4: printed mean (SD), men and women. */
describe('usual sums as printed', () => {
  it.each([
    ['rise', [0.801, 0.018], [0.798, 0.019]],
    ['seat-and-legs', [0.8, 1.7], [1.0, 1.5]],
    ['palm', [0.603, 0.02], [0.601, 0.019]],
    ['ball', [0.741, 0.015], [0.739, 0.013]],
    ['neck-and-base', [3.7, 1.0], [4.1, 1.0]],
    ['hand-and-wrist', [1.21, 0.04], [1.21, 0.04]],
    ['back-rise', [0.57, 0.04], [0.55, 0.03]],
  ] as const)('%s', (id, men, women) => {
    const check = SUM_CHECKS.find((one) => one.id === id);
    for (const [usual, [mean, sd]] of [
      [check?.M, men],
      [check?.F, women],
    ] as const) {
      const digits = String(sd).split('.')[1]?.length ?? 0;
      expect(Math.abs((usual?.mean ?? 0) - mean)).toBeLessThanOrEqual(0.51 * 10 ** -Math.min(digits, 3) + 0.05 * sd);
      expect(Math.abs((usual?.sd ?? 0) - sd)).toBeLessThanOrEqual(0.51 * 10 ** -digits + 0.05 * sd);
    }
  });
});
