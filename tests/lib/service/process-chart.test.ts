import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chartOfCountsBetween, chartOfShares, chartOfValues, FROZEN_AT } from '@/lib/service/process-chart';
import { proportionRange } from '@/lib/service/proportion-range';

const at = (value: number | undefined, digits: number) => Number(value?.toFixed(digits));

/** Worked examples of control charts: formulas of ISO 7870-2:2023 and Benneyan 2001, figures worked by an independent script. */
describe('process charts', () => {
  it('of single values', () => {
    const chart = chartOfValues([14, 11, 18, 13, 16, 12, 15, 20, 13, 12, 17, 14]);
    expect(at(chart?.centre, 4)).toBe(14.5833);
    expect([at(chart?.limits[0]?.low, 4), at(chart?.limits[0]?.high, 4)]).toEqual([3.4597, 25.707]);
    expect(at(chart?.rangeLimit, 4)).toBe(13.6662);
    expect(chart?.signals).toEqual([]);
  });

  it('of shares, each period by its own number of cases', () => {
    const all = [42, 38, 45, 40, 36, 44];
    const chart = chartOfShares([5, 4, 3, 12, 4, 5].map((some, month) => ({ some, all: all[month] ?? 0 })));
    expect(at(chart?.centre, 5)).toBe(0.13469);
    expect(chart?.limits.map(({ high }) => at(high, 4))).toEqual([0.2927, 0.3008, 0.2874, 0.2966, 0.3054, 0.2891]);
    expect(chart?.limits.every(({ low }) => low === 0)).toBe(true);
    expect(chart?.signals).toEqual([{ kind: 'outside', from: 3, to: 3 }]);
    expect(chartOfShares([{ some: 0, all: 0 }])).toBeUndefined();
  });

  it('of what lies between rare events', () => {
    const chart = chartOfCountsBetween([7, 12, 3, 9, 14, 6, 10]);
    expect([at(chart?.centre, 4), at(chart?.limits[0]?.high, 4)]).toEqual([8.7143, 36.3164]);
  });

  it('names eight on one side and six rising, and nothing of seven and five', () => {
    const side = [1, -1, 1, -1, ...Array.from({ length: 8 }, (_, index) => (index % 2 ? 0.2 : 0.6)), -3, -0.2, -1, 1, -1];
    expect(chartOfValues(side)?.signals).toContainEqual({ kind: 'one side', from: 4, to: 11 });
    expect(chartOfValues([0, 2, -1, 0, 1, 2, 3, 4, 0])?.signals).toContainEqual({ kind: 'rising', from: 2, to: 7 });
    expect(chartOfValues([0, 2, -1, 0, 1, 2, 3, 0, 1])?.signals).toEqual([]);
  });

  it('limits stand still once enough values have made them', () => {
    const base = fc.array(fc.integer({ min: 5, max: 30 }), { minLength: FROZEN_AT, maxLength: FROZEN_AT });
    fc.assert(
      fc.property(base, fc.array(fc.integer({ min: 0, max: 500 }), { maxLength: 20 }), (values, later) => {
        const [chart, longer] = [chartOfValues(values), chartOfValues([...values, ...later])];
        expect(longer?.centre).toBe(chart?.centre);
        expect(longer?.limits[0]).toEqual(chart?.limits[0]);
      }),
    );
  });
});

describe('the range of a share', () => {
  it('by Wilson: 3 of 40 and none of 20, to the printed digits', () => {
    const some = proportionRange(3, 40);
    expect([at(100 * (some?.low ?? 0), 2), at(100 * (some?.high ?? 0), 2)]).toEqual([2.58, 19.86]);
    const none = proportionRange(0, 20);
    expect([none?.low, at(100 * (none?.high ?? 0), 2)]).toEqual([0, 16.11]);
  });

  it('says nothing of no case, and never leaves 0 to 1', () => {
    expect(proportionRange(0, 0)).toBeUndefined();
    fc.assert(
      fc.property(fc.nat(200), fc.nat(200), (some, more) => {
        fc.pre(some + more > 0);
        const range = proportionRange(some, some + more);
        expect(range && 0 <= range.low && range.low <= range.share && range.share <= range.high && range.high <= 1).toBe(true);
      }),
    );
  });
});
