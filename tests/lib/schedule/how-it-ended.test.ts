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
});
