import { describe, expect, it } from 'vitest';
import type { Piece } from '@/lib/record/patient-record';
import { howItEnded } from '@/lib/schedule/how-it-ended';
import type { DateKind } from '@/lib/schedule/scheduled-date';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { legOf, pieceOf } from '../prompts/made-up-piece';

const D = calendarDay;
const FIRST = visitOf('2026-01-05', [legOf()]);

function ended(kind: DateKind, pieces: readonly Piece[], visits = [FIRST]) {
  return howItEnded({ key: `${kind}:1`, kind }, recordOf(visits, { pieces }));
}

describe('how a date came to its end', () => {
  const piece = pieceOf('2026-01-05');
  const next = (rest: Partial<Piece>) => ({ ...piece, piece: '2', ...rest });

  it('an order is done by a piece of the same limb and side, cut as late or later, that is not retired', () => {
    expect(ended('order', [piece, next({})])).toBe('done');
    expect(ended('order', [piece, next({ cutFrom: D('2026-02-05') })])).toBe('done');
    expect(ended('order', [piece])).toBe('cancelled');
    expect(ended('order', [piece, next({ limb: 'arm' })])).toBe('cancelled');
    expect(ended('order', [piece, next({ side: 'right' })])).toBe('cancelled');
    expect(ended('order', [piece, next({ cutFrom: D('2026-01-04') })])).toBe('cancelled');
    expect(ended('order', [piece, next({ retired: D('2026-02-05') })])).toBe('cancelled');
  });

  it('measuring again is done by a later ladder of that limb and side', () => {
    const later = (...ladders: readonly ReturnType<typeof legOf>[]) =>
      ended('remeasure', [piece], [FIRST, visitOf('2026-02-05', [...ladders])]);
    expect(later(legOf())).toBe('done');
    expect(later(legOf(1, { side: 'right' }))).toBe('cancelled');
    expect(later({ ...legOf(), limb: 'arm' })).toBe('cancelled');
    expect(later()).toBe('cancelled');
    expect(ended('remeasure', [piece])).toBe('cancelled');
  });

  it('what hangs on a piece is done by the fact that was waited for', () => {
    for (const [kind, done] of [
      ['delivery', { delivered: D('2026-01-19') }],
      ['delivery', { firstWorn: D('2026-01-19') }],
      ['first-fit', { firstFit: D('2026-01-19') }],
      ['end-of-life', { retired: D('2026-06-19') }],
    ] as const) {
      expect(ended(kind, [{ ...piece, ...done }]), kind).toBe('done');
      expect(ended(kind, [piece]), kind).toBe('cancelled');
      expect(ended(kind, []), kind).toBe('cancelled');
    }
  });

  it('a visit is done by a later one, not by one of that day', () => {
    const record = recordOf([FIRST, visitOf('2026-02-05', [legOf()])]);
    expect(howItEnded({ key: 'visit-after:2026-01-05', kind: 'visit' }, record)).toBe('done');
    expect(howItEnded({ key: 'visit-after:2026-02-05', kind: 'visit' }, record)).toBe('cancelled');
  });

  it('what was booked or missed by a visit of that day or another booking; what is not on record is cancelled', () => {
    const booking = { bookingId: 'b1', day: D('2026-01-05'), time: null, what: null, state: 'booked', reason: null };
    const with1 = (more: object) => recordOf([FIRST], { bookings: [{ ...booking, ...more }] as never });
    const of = (kind: DateKind, record = with1({})) => howItEnded({ key: `${kind}:b1`, kind }, record);
    expect([of('booking'), of('not-said'), of('missed')]).toEqual(['done', 'done', 'done']);
    const another = with1({ day: D('2026-01-06') });
    expect([of('booking', another), of('not-said', another), of('missed', another)]).toEqual(['cancelled', 'cancelled', 'done']);
    const gone = with1({ bookingId: 'b2' });
    expect([of('booking', gone), of('missed', gone)]).toEqual(['cancelled', 'cancelled']);
    expect(of('missed', recordOf([FIRST]))).toBe('cancelled');
  });

  it('asking whether care goes on by a later phase, a referral by a later end, an early call by the call', () => {
    const phases = (from: string) => recordOf([FIRST], { phases: [{ kind: 'garments', from: D(from) }] as never });
    const ask = (record: ReturnType<typeof recordOf>) => howItEnded({ key: 'ask-again:2026-02-01', kind: 'ask' }, record);
    expect([ask(phases('2026-02-02')), ask(phases('2026-02-01')), ask(recordOf([FIRST]))]).toEqual(['done', 'cancelled', 'cancelled']);
    const referral = (until?: string) =>
      howItEnded(
        { key: 'referral:2026-02-01', kind: 'referral' },
        recordOf([FIRST], { facts: until ? ({ referralUntil: D(until) } as never) : null }),
      );
    expect([referral('2026-08-01'), referral('2026-02-01'), referral()]).toEqual(['done', 'cancelled', 'cancelled']);
    const wearIn = { firstHours: 2, fullHours: 23, days: 14, callOn: D('2026-01-26'), called: null, callNote: null };
    expect(ended('call', [{ ...piece, wearIn }])).toBe('cancelled');
    expect(ended('call', [{ ...piece, wearIn: { ...wearIn, called: D('2026-01-26') } }])).toBe('done');
    expect(ended('call', [piece])).toBe('cancelled');
  });

  it('what a family sent by an answer to it', () => {
    const reply = (answer: object | null) => recordOf([FIRST], { replies: [{ replyId: 'r1', answer }] as never });
    const of = (record: ReturnType<typeof recordOf>, key = 'call-back:r1') => howItEnded({ key, kind: 'call-back' }, record);
    expect([of(reply({ as: 'rung' })), of(reply(null)), of(reply({ as: 'rung' }), 'call-back:r2'), of(recordOf([FIRST]))]).toEqual([
      'done',
      'cancelled',
      'cancelled',
      'cancelled',
    ]);
  });
});
