import { describe, expect, it } from 'vitest';
import { coverKey, endOfLife, inUse } from '@/lib/garments/wear';
import { calendarDay } from '@/lib/units/calendar-day';
import { cm } from '../made-up-ladder';
import { pieceOf } from '../prompts/made-up-piece';

const worn = pieceOf('2026-01-05', { firstWorn: calendarDay('2026-03-01') });

describe('wear of a piece', () => {
  it('ends its days after first wear: 1 March and 90 days are 30 May; nothing ends before it is worn', () => {
    expect(endOfLife(worn)).toBe('2026-05-30');
    expect(endOfLife(pieceOf('2026-01-05'))).toHaveProperty('noAnswer');
  });
  it('is over on the day it is out of use', () => {
    const retired = { ...worn, retired: calendarDay('2026-04-01') };
    expect([inUse(retired, calendarDay('2026-03-31')), inUse(retired, calendarDay('2026-04-01'))]).toEqual([true, false]);
  });
  it('pieces stand in for each other by limb and ends, whichever end was named first', () => {
    const over = (from: string, to: string) => coverKey({ ...worn, covers: { from, to } as typeof worn.covers });
    expect(over('knee', 'ankle-crease')).toBe(over('ankle-crease', 'knee'));
    expect(over('knee', 'gluteal-fold')).not.toBe(over('ankle-crease', 'knee'));
    expect(coverKey({ ...worn, covers: { from: cm(40), to: cm(4) } })).toBe(coverKey({ ...worn, covers: { from: cm(4), to: cm(40) } }));
    expect(coverKey({ ...worn, side: 'right' })).not.toBe(coverKey(worn));
  });
});
