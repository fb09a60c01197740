import { describe, expect, it } from 'vitest';
import { pieceStage } from '@/lib/garments/piece-stage';
import { wearDays } from '@/lib/garments/wear';
import type { Piece } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { pieceOf } from '../prompts/made-up-piece';

const day = calendarDay;
const today = day('2026-11-25');
const of = (parts: Partial<Piece>): Piece => pieceOf('2026-08-01', parts);

describe('the stage of a piece', () => {
  it('follows its own days: on order, delivered, wear-in, in turn, out of use', () => {
    const ordered = of({ orderId: 'o' });
    expect(pieceStage(ordered, today)).toBe('on order');
    expect(pieceStage({ ...ordered, delivered: day('2026-11-20') }, today)).toBe('delivered');
    const wearIn = { firstHours: 2, fullHours: 23, days: 14, callOn: day('2026-11-28'), called: null, callNote: null };
    const worn = { ...ordered, delivered: day('2026-11-20'), firstWorn: day('2026-11-21'), wearIn };
    expect(pieceStage(worn, today)).toBe('wear-in');
    expect(pieceStage(worn, day('2026-12-05'))).toBe('in rotation');
    expect(pieceStage({ ...worn, retired: today }, today)).toBe('out of use');
  });

  it('is sent back after a first fit that asks for an alteration or a remake, until it is delivered again', () => {
    const fit = {
      day: day('2026-11-22'),
      zones: [],
      outcome: 'remake' as const,
      reason: 'girth wrong' as const,
      words: null,
      taught: false,
    };
    const back = of({ orderId: 'o', fit });
    expect(pieceStage(back, today)).toBe('sent back');
    expect(pieceStage({ ...back, delivered: today }, today)).toBe('delivered');
  });

  it('is spare from the day it is kept as one, in turn again from the next', () => {
    const piece = of({
      firstWorn: day('2026-09-01'),
      kept: [
        { from: day('2026-10-01'), as: 'spare' },
        { from: day('2026-11-01'), as: 'rotation' },
      ],
    });
    expect(pieceStage(piece, day('2026-09-30'))).toBe('in rotation');
    expect(pieceStage(piece, day('2026-10-01'))).toBe('spare');
    expect(pieceStage(piece, day('2026-11-01'))).toBe('in rotation');
  });
});

describe('wear days', () => {
  // Common practice: two of one order alternate, so each is worn every other day. Counts by hand.
  it('of a piece alone for 30 days and then one of two for 60 are 60 in 90 calendar days', () => {
    const first = of({ piece: '1', firstWorn: day('2026-08-27') });
    const second = of({ piece: '2', firstWorn: day('2026-09-26') });
    expect(wearDays(first, [first, second], today)).toBeCloseTo(60, 9);
    expect(wearDays(second, [first, second], today)).toBeCloseTo(30, 9);
  });

  it('leave out the days as a spare, which the other then wears alone', () => {
    const spare = of({ piece: '1', firstWorn: day('2026-09-26'), kept: [{ from: day('2026-10-06'), as: 'spare' }] });
    const other = of({ piece: '2', firstWorn: day('2026-09-26') });
    expect(wearDays(spare, [spare, other], today)).toBeCloseTo(5, 9);
    expect(wearDays(other, [spare, other], today)).toBeCloseTo(55, 9);
  });

  it('are not shared with a piece of another cover, nor counted before first wear', () => {
    const leg = of({ piece: '1', firstWorn: day('2026-11-15') });
    const calf = of({ piece: '2', firstWorn: day('2026-11-15'), covers: { from: 'knee', to: 'gluteal-fold' } });
    expect(wearDays(leg, [leg, calf, { ...leg, side: 'right' }], today)).toBe(10);
    expect(wearDays(of({}), [], today)).toEqual({ noAnswer: 'Not worn yet.' });
  });
});
