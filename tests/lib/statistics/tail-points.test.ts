import { describe, expect, it } from 'vitest';
import { chiSquarePoint, fPoint } from '@/lib/statistics/tail-points';

/** Worked by SciPy 1.17.1 (`chi2.ppf`, `f.ppf`). */
describe('tail points against SciPy', () => {
  it.each([
    [0.025, 1, 0.0009820691171752555],
    [0.975, 15, 27.488392863442975],
    [0.025, 3.01, 0.218014786454407],
    [0.025, 2, 0.05063561596857975],
    [0.975, 200, 241.05789550631093],
  ])('χ² at %s with %s degrees', (share, df, expected) => {
    expect(chiSquarePoint(share, df) / expected).toBeCloseTo(1, 10);
  });

  it.each([
    [0.975, 2, 8, 6.059467437463481],
    [0.025, 2, 8, 0.02539810122410947],
    [0.975, 4, 8, 5.052632217363513],
    [0.025, 1, 30, 0.0009985875896366967],
    [0.975, 9, 1, 963.2845789467588],
  ])('F at %s with %s and %s degrees', (share, above, below, expected) => {
    expect(fPoint(share, above, below) / expected).toBeCloseTo(1, 10);
  });
});
