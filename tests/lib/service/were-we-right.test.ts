import { describe, expect, it } from 'vitest';
import { rightFigures } from '@/lib/service/were-we-right';
import { seeded } from '@/tests/cohort/random';
import { reliabilityOf } from '@/tests/cohort/reliability';

const NONE = { verdicts: [], misses: [], outlooks: [] };

describe('whether what was given was right', () => {
  it('says nothing of nothing', () => {
    expect(rightFigures(NONE)).toMatchObject({ ranges: [], verdicts: [], tenths: [], brier: null, earlyKept: null });
  });

  it('holds 95 of 100 against Wilson’s range, and learns the scale with which 95 would have held', () => {
    const [fine] = rightFigures({
      ...NONE,
      misses: [
        { against: 'last', miss: 196, n: 95 },
        { against: 'last', miss: -197, n: 5 },
      ],
    }).ranges;
    expect(fine).toMatchObject({ some: 95, all: 100, isOff: false, scale: null });
    const [off] = rightFigures({
      ...NONE,
      misses: [
        { against: 'last', miss: 50, n: 85 },
        { against: 'last', miss: -294, n: 10 },
        { against: 'last', miss: 500, n: 5 },
      ],
    }).ranges;
    // Wilson 85 of 100: 76.72 to 90.69 % (section g’s formula); (2.94 / 1.96)² = 2.25.
    expect(off).toMatchObject({ some: 85, isOff: true, scale: 2.25 });
    expect([off?.low, off?.high].map((end) => Number(((end ?? 0) * 100).toFixed(2)))).toEqual([76.72, 90.69]);
    expect(rightFigures({ ...NONE, misses: [{ against: 'last', miss: 500, n: 19 }] }).ranges[0]?.isOff).toBe(false);
  });

  it('scores as the independent reliability of the campaigns does', () => {
    const random = seeded(3);
    const cases = Array.from({ length: 400 }, () => {
      const chance = Math.floor(1000 * random.uniform()) / 1000;
      return { chance, sure: false, came: Number(random.uniform() < chance), weight: 1 };
    });
    const verdicts = cases.map(({ chance, came }) => ({
      ...({ against: 'last', word: 'no-clear-change', came: 'open', n: 1 } as const),
      ...{ tenth: Math.min(Math.floor(chance * 10), 9), changed: came === 1, stated: chance, square: (chance - came) ** 2 },
    }));
    const { brier, tenths } = rightFigures({ ...NONE, verdicts });
    const independent = reliabilityOf(cases);
    expect(brier?.score).toBeCloseTo(independent.brier, 12);
    expect(brier?.ofBaseRate).toBeCloseTo(independent.brierBaseRate, 12);
    expect(tenths.map(({ all, stated, share }) => [all, stated.toFixed(9), share.toFixed(9)])).toEqual(
      independent.tenths.map(({ n, stated, came }) => [n, stated.toFixed(9), came.toFixed(9)]),
    );
  });

  it('counts verdicts by rule and word, and early days kept against nine in ten', () => {
    const row = { against: 'baseline', word: 'as-expected', tenth: null, changed: null, stated: 0, square: 0 } as const;
    const { verdicts, earlyKept, outlooks, daysOff } = rightFigures({
      misses: [],
      verdicts: [
        { ...row, came: 'confirmed', n: 8 },
        { ...row, came: 'contradicted', n: 2 },
        { ...row, came: 'open', n: 3 },
        { ...row, word: 'cannot-tell', came: 'no-claim', n: 9 },
      ],
      outlooks: [
        { came: 'before-early', earlyKept: false, daysOff: -40, n: 20 },
        { came: 'after', earlyKept: true, daysOff: null, n: 40 },
        { came: 'not-yet', earlyKept: null, daysOff: null, n: 5 },
      ],
    });
    expect(verdicts).toMatchObject([{ confirmed: 8, contradicted: 2, open: 3, range: { share: 0.8 } }]);
    expect(earlyKept).toMatchObject({ some: 40, all: 60, isOff: true });
    expect(outlooks).toEqual({ 'before-early': 20, between: 0, after: 40, 'not-yet': 5 });
    expect(daysOff).toEqual([{ days: -40, n: 20 }]);
  });
});
