import { describe, expect, it } from 'vitest';
import type { Ladder } from '@/lib/ladder/ladder';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { orderDifference } from '@/lib/orders/order-difference';
import { sheetRows, usualInterval } from '@/lib/orders/printed-rows';
import { isNoAnswer } from '@/lib/outcome';
import { limbChange } from '@/lib/trend/limb-change';
import { limbSeries } from '@/lib/trend/limb-series';
import type { SeriesVisit } from '@/lib/trend/series-visit';
import { asNanometres, type TypedLength } from '@/lib/units/length';
import { recordOf, visitOf } from '../made-up-ladder';
import { legOf, pieceOf } from '../prompts/made-up-piece';

const inches = (text: string, quarters: number): TypedLength => ({ text, unit: 'in', nm: asNanometres(quarters * 6_350_000) });

const LADDER: Ladder = {
  limb: 'leg',
  side: 'right',
  zero: 'ankle-crease',
  direction: 'up',
  unit: 'in',
  rungs: [
    { distance: inches('1 1/2', 6), girth: inches('7 3/4', 31) },
    { distance: inches('3', 12), girth: inches('8 1/4', 33) },
    { distance: inches('4 1/2', 18), girth: inches('9', 36) },
    { distance: inches('6', 24), girth: inches('9 1/2', 38) },
    { distance: inches('6 3/4', 27), girth: inches('9 3/4', 39) },
  ],
  landmarks: [{ landmark: 'knee', distance: inches('5', 20) }],
  floorToFold: null,
};

describe('the rows of an order sheet', () => {
  it('show what was typed beside the other unit, the landmark in its own row, and the odd last interval', () => {
    const rows = sheetRows(LADDER, null);
    // 7 3/4 in is 19.685 cm and 1 1/2 in is 3.81 cm (1 in = 2.54 cm exactly, 1959).
    expect(rows[0]).toMatchObject({
      distance: { typed: '1 1/2', other: '3.8' },
      girth: { typed: '7 3/4', other: '19.7' },
      oddInterval: false,
    });
    expect(rows.map((row) => row.landmark).filter(Boolean)).toEqual(['knee']);
    expect(rows.find((row) => row.landmark)?.girth).toBeNull();
    expect(rows.at(-1)).toMatchObject({ oddInterval: true, intervalMm: 19.05 });
    expect(usualInterval(LADDER)).toBe(1.5);
  });

  it('compare with the last order at the same anatomy, not at the same row', () => {
    // A leg 10 % longer whose girths are the same along its anatomy: row by row they differ, place by place they do not.
    const young = { born: '2016-01-01' as never, affected: [{ limb: 'leg' as const, side: 'left' as const }] };
    const grown = legOf(1, { stretch: 1.1 });
    const record = recordOf(
      [visitOf('2025-11-10', [legOf()], { height: '140', weight: '33' }), visitOf('2026-11-10', [grown], { height: '152', weight: '40' })],
      young,
    );
    const [earlier, later] = (limbSeries(record, DEFAULT_POLICY)[0]?.visits ?? []) as [SeriesVisit, SeriesVisit];
    const change = limbChange(earlier, later, 'leg', DEFAULT_POLICY);
    if (isNoAnswer(change)) throw new Error(change.noAnswer);
    const rows = sheetRows(grown, change).filter((row) => row.beforeMm !== null);
    expect(rows.length).toBeGreaterThan(10);
    for (const row of rows) expect(Math.abs((row.beforeMm ?? 0) - (row.girthMm ?? 0))).toBeLessThan(2);
  });
});

describe('the difference from the last order', () => {
  it('names what differs and nothing else; what an old piece does not say is not recorded', () => {
    const before = pieceOf('2026-08-01');
    const now = {
      ...pieceOf('2026-11-10', { reductionPct: 20 }),
      garment: { form: 'knee-high', use: 'day', pressure: null, options: [] } as const,
    };
    expect(orderDifference(before, now)).toEqual([
      { what: 'Ladder', before: '1 Aug 2026', now: '10 Nov 2026' },
      { what: 'Garment', before: 'not recorded', now: 'knee-high, foot to below the knee' },
      { what: 'Worn', before: 'not recorded', now: 'by day' },
      {
        what: 'Reduction',
        before: '15\u202f%, relaxed girth = girth × (1 − reduction)',
        now: '20\u202f%, relaxed girth = girth × (1 − reduction)',
      },
      { what: 'Class', before: 'not recorded', now: 'no class given' },
      { what: 'Options', before: 'not recorded', now: 'none' },
    ]);
    const roomy = { ...before, allowance: { text: '2', unit: 'cm' as const, nm: asNanometres(20_000_000) }, lifeDays: 120 };
    expect(orderDifference(before, roomy)).toEqual([
      { what: 'Room to let out', before: 'none', now: '2 cm' },
      { what: 'Expected life', before: '90 days', now: '120 days' },
    ]);
    expect(orderDifference(before, before)).toEqual([]);
  });
});
