import { describe, expect, it } from 'vitest';
import { careFigures } from '@/lib/service/care-figures';

const NONE = { n: 0, withAny: 0, whole: 0, some: 0, wholeSquare: 0, someSquare: 0, product: 0 };

describe('care in figures', () => {
  it('says nothing of nothing', () => {
    expect(careFigures({ without: NONE, excess: [] })).toEqual({ without: null, withAny: null, phases: [] });
  });

  it('takes the days of one patient as one case: two patients by hand', () => {
    // 10 of 100 and 30 of 100 days: R 0.2; residuals −10 and 10; √(2/1 · 200) / 200 = 0.1.
    const without = { n: 2, withAny: 2, whole: 200, some: 40, wholeSquare: 20_000, someSquare: 1000, product: 4000 };
    const { without: said } = careFigures({ without, excess: [] });
    expect(said?.days).toBeCloseTo(365.25 * 0.2, 9);
    expect(said?.high).toBeCloseTo(365.25 * (0.2 + 0.196), 9);
    expect(said?.low).toBeCloseTo(365.25 * (0.2 - 0.196), 9);
  });

  it('splits excess by phase, kept of those with a phase before', () => {
    const excess = [
      { phase: 'garments', lost: -5, kept: true, n: 3 },
      { phase: 'garments', lost: -60, kept: false, n: 1 },
      { phase: 'reduction', lost: 80, kept: null, n: 4 },
    ];
    const { phases } = careFigures({ without: NONE, excess });
    expect(phases).toMatchObject([
      { phase: 'garments', kept: { some: 3, all: 4 } },
      { phase: 'reduction', kept: null, lost: [{ days: 80, n: 4 }] },
    ]);
  });
});
