import { describe, expect, it } from 'vitest';
import { daysWithout, serviceCases } from '@/lib/analysis/service-cases';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, pieceOf } from '../prompts/made-up-piece';

const day = calendarDay;
const GROWN = { height: '170 cm', weight: '70 kg' };

describe('days without a working piece', () => {
  const months = (record: Parameters<typeof daysWithout>[0], today: string) =>
    daysWithout(record, day(today)).map((one) => [one.day.slice(0, 7), one.whole, one.some]);

  it('lie between the end of one piece’s life and the next one worn, by hand; the present month is left out', () => {
    const pieces = [
      pieceOf('2026-02-20', { firstWorn: day('2026-03-01'), lifeDays: 90 }),
      pieceOf('2026-02-20', { piece: '2', firstWorn: day('2026-06-10'), lifeDays: 90 }),
    ];
    // Worn 1 March for 90 days: up to 29 May. Without: 30 and 31 May, 1 to 9 June.
    expect(months(recordOf([], { pieces }), '2026-07-15')).toEqual([
      ['2026-03', 31, 0],
      ['2026-04', 30, 0],
      ['2026-05', 31, 2],
      ['2026-06', 30, 9],
    ]);
    expect(months(recordOf([], { pieces }), '2026-03-31')).toEqual([]);
  });

  it('leave out days on hold, and count a piece that went out of use or was sent back as none', () => {
    const worn = pieceOf('2026-02-20', { firstWorn: day('2026-03-01'), lifeDays: 300 });
    const hold = { kind: 'on-hold', from: day('2026-03-11'), until: day('2026-03-20'), baselineDay: null } as const;
    const retired = { ...worn, retired: day('2026-03-25'), retiredAs: 'lost' } as const;
    expect(months(recordOf([], { pieces: [retired], phases: [hold] }), '2026-04-01')).toEqual([['2026-03', 21, 7]]);
    const fit = { day: day('2026-03-30'), zones: [], outcome: 'remake', reason: null, words: null, taught: false } as const;
    expect(months(recordOf([], { pieces: [{ ...worn, fit, delivered: null }] }), '2026-04-01')).toEqual([['2026-03', 31, 2]]);
  });
});

describe('excess by phase', () => {
  it('is what went from the first visit of a phase to its last, and kept while the next phase does not give it back', () => {
    const at = (on: string, factor: number) => visitOf(on, [legOf(factor), legOf(1, { side: 'right' })], GROWN);
    const phase = (kind: 'reduction' | 'garments', from: string, until: string | null) =>
      ({ kind, from: day(from), until: until === null ? null : day(until), baselineDay: null }) as const;
    const of = (last: number) =>
      serviceCases(
        analysed(
          recordOf([at('2026-01-05', 1.1), at('2026-02-05', 1.05), at('2026-04-05', 1.05), at('2026-06-05', last)], {
            affected: [{ limb: 'leg', side: 'left' }],
            phases: [phase('reduction', '2026-01-01', '2026-03-01'), phase('garments', '2026-03-02', null)],
          }),
          '2026-07-01',
        ),
      ).flatMap((one) => (one.kind === 'excess' ? [one] : []));
    // Girths 1.10 and 1.05 times the other: excess 21 and 10.25 %, so 107.5 tenths of a point; girths are rounded to 0.1 mm.
    expect(of(1.05).map(({ phase: kind, kept, day: on }) => [kind, kept, on])).toEqual([
      ['reduction', null, '2026-02-05'],
      ['garments', true, '2026-06-05'],
    ]);
    expect(Math.abs((of(1.05)[0]?.lost ?? 0) - 107.5)).toBeLessThan(1.5);
    expect(of(1.12)[1]).toMatchObject({ kept: false });
    expect(of(1.12)[1]?.lost).toBeLessThan(-100);
  });
});
