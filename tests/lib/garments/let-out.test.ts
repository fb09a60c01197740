import { describe, expect, it } from 'vitest';
import { fitToday } from '@/lib/garments/fit-today';
import { letOutMm } from '@/lib/garments/let-out';
import { relativeTightness } from '@/lib/garments/tightness';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { limbSeries } from '@/lib/trend/limb-series';
import { rememberedChanges } from '@/lib/trend/remembered-changes';
import { calendarDay } from '@/lib/units/calendar-day';
import { cm, ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { pieceOf } from '../prompts/made-up-piece';

const letOut = (day: string, width: number) => ({ kind: 'let out' as const, day: calendarDay(day), width: cm(width), words: null });

describe('a let-out', () => {
  it('adds up over the alterations of a piece; another alteration adds nothing', () => {
    const altered = { kind: 'altered' as const, day: calendarDay('2026-06-01'), width: null, words: 'hem' };
    expect(letOutMm({ alterations: [letOut('2026-05-01', 1), altered, letOut('2026-07-01', 0.5)] })).toBeCloseTo(15, 9);
    expect(letOutMm({ alterations: null })).toBe(0);
  });

  it('by the growth of the relaxed girth leaves the tension as it was, so pressure falls by the curve alone: P/P₀ = C₀/C', () => {
    // Thin sleeve on a cylinder: p = 2πτ/C with τ = k (C − G)/G. If G grows with C, (C − G)/G is as before, and p falls as 1/C.
    for (const [fitted, reduction, growth] of [
      [200, 0.1, 0.03],
      [310, 0.2, 0.08],
      [155, 0.15, 0.05],
    ] as const) {
      const relaxed = fitted * (1 - reduction);
      expect(relativeTightness(relaxed * (1 + growth), fitted * (1 + growth), fitted, relaxed)).toBeCloseTo(1 / (1 + growth), 12);
    }
  });

  it('loosens a piece cut from the newest ladder, and by that ladder', () => {
    const day = '2026-09-01';
    const record = recordOf([
      visitOf(day, [
        ladderOf({
          girths: [
            [0, 20],
            [10, 25],
            [20, 30],
          ],
          landmarks: { knee: 20 },
        }),
      ]),
    ]);
    const [series] = limbSeries(record, DEFAULT_POLICY);
    const piece = { ...pieceOf(day, { reductionPct: 10 }), alterations: [letOut('2026-10-01', 1)] };
    const fit = fitToday(piece, series, DEFAULT_POLICY, rememberedChanges(DEFAULT_POLICY));
    if (isNoAnswer(fit)) throw new Error(fit.noAnswer);
    // 20 cm at 10 %: G 18, let out to 19: (1/19 − 1/20) / (1/18 − 1/20).
    expect(fit.places[0]?.tightness).toBeCloseTo((1 / 19 - 1 / 20) / (1 / 18 - 1 / 20), 9);
  });
});
