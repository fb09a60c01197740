import { describe, expect, it } from 'vitest';
import type { CoverageRule } from '@/lib/record/coverage';
import type { Piece } from '@/lib/record/patient-record';
import { clockInWords, coverageOfPatient, coverageQuestion } from '@/lib/schedule/coverage-of-patient';
import { calendarDay } from '@/lib/units/calendar-day';
import { pieceOf } from '../prompts/made-up-piece';

const D = calendarDay;
/** Made up: two by day in fixed half years, one by night in a rolling year. */
const rule: CoverageRule = {
  id: 'r',
  payer: 'Made-up payer',
  lines: [
    { use: 'day', quantity: 2, months: 6, clock: 'fixed' },
    { use: 'night', quantity: 1, months: 12, clock: 'rolling' },
  ],
  exceptions: ['outgrown'],
  source: 'made up',
};
const coverage = { rule, from: D('2026-01-01') };
const leg = { limb: 'leg', side: 'left' } as const;
const garment = (use: 'day' | 'night' | 'other') => ({ form: 'calf sleeve', use, pressure: null, options: [] });
const piece = (rest: Partial<Piece>): Piece => pieceOf('2026-01-05', rest);
const clocksOf = (pieces: readonly Piece[], today = '2026-05-01', reasons: ReadonlyMap<string, 'outgrown' | 'worn out'> = new Map()) =>
  coverageOfPatient(coverage, pieces, reasons, [leg], D(today));

describe('the payer’s clocks of a patient', () => {
  it('count a piece from its delivery, else from first wear, for its own limb, side and use', () => {
    const counted = [piece({ delivered: D('2026-02-10') }), piece({ firstWorn: D('2026-03-10') })];
    const others = [
      piece({ delivered: D('2026-02-10'), limb: 'arm' }),
      piece({ delivered: D('2026-02-10'), side: 'right' }),
      piece({}),
      piece({ delivered: D('2025-12-31'), firstWorn: D('2026-02-01') }),
    ];
    const [day, night] = clocksOf([...counted, ...others, piece({ delivered: D('2026-02-10'), garment: garment('night') })]);
    expect(day?.clock).toMatchObject({ used: 2, left: 0, from: '2026-01-01', opensOn: '2026-07-01' });
    expect(night?.clock).toMatchObject({ used: 1, left: 0, opensOn: '2027-02-10' });
    expect(clocksOf(others)[0]?.clock).toMatchObject({ used: 0, left: 2, opensOn: null });
  });

  it('do not count what came under an exception of the rule', () => {
    const came = [
      piece({ delivered: D('2026-02-10'), orderId: 'o1' }),
      piece({ delivered: D('2026-02-11'), orderId: 'o2' }),
      piece({ delivered: D('2026-02-12'), orderId: 'o3' }),
    ];
    const reasons = new Map([
      ['o1', 'outgrown' as const],
      ['o2', 'worn out' as const],
    ]);
    expect(clocksOf(came, '2026-05-01', reasons)[0]?.clock.used).toBe(2);
  });

  it('are said in a sentence each', () => {
    expect(clocksOf([piece({ delivered: D('2026-02-10') })]).map(clockInWords)).toEqual([
      'Left leg, day: 1 of 2 used since 1 Jan 2026, 1 left.',
      'Left leg, night: 0 of 1 used since 1 Jan 2026, 1 left.',
    ]);
    const full = [piece({ delivered: D('2026-02-10') }), piece({ delivered: D('2026-02-10') })];
    expect(clockInWords(clocksOf(full)[0] as ReturnType<typeof clocksOf>[0])).toBe(
      'Left leg, day: 2 of 2 used since 1 Jan 2026; the next is covered from 1 Jul 2026.',
    );
  });

  it('ask of an order beyond what is left, and of a use without a line; not within it, nor under an exception', () => {
    const one = [piece({ delivered: D('2026-02-10') })];
    const order = { ...leg, garment: garment('day'), quantity: 1, reasonCode: 'worn out' as const };
    const ask = (more: object) => coverageQuestion({ ...order, ...more }, coverage, clocksOf(one));
    expect(ask({})).toBeNull();
    expect(ask({ quantity: 2 })).toEqual({
      key: 'coverage day 1 2 ',
      message: 'Made-up payer covers 1 more now, this order is for 2.',
    });
    const full = clocksOf([...one, ...one]);
    expect(coverageQuestion(order, coverage, full)).toEqual({
      key: 'coverage day 0 1 2026-07-01',
      message: 'Made-up payer covers 0 more now, this order is for 1; the next is covered from 1 Jul 2026.',
    });
    expect(coverageQuestion({ ...order, reasonCode: 'outgrown' }, coverage, full)).toBeNull();
    expect(ask({ garment: garment('other') })).toEqual({
      key: 'coverage none other',
      message: 'Made-up payer has no line for a piece worn by other.',
    });
    for (const where of [{ limb: 'arm' }, { side: 'right' }]) expect(ask(where)?.key).toBe('coverage none day');
  });
});
