import { describe, expect, it } from 'vitest';
import { buildUp } from '@/lib/garments/build-up';
import { calendarDay } from '@/lib/units/calendar-day';

const firstWorn = calendarDay('2026-03-02');
const wearIn = { firstHours: 2, fullHours: 23, days: 14, callOn: calendarDay('2026-03-09'), called: null, callNote: null };
const stepsOf = (most: number, more: object = {}) =>
  buildUp({ firstWorn, wearIn: { ...wearIn, ...more } }, most).map(({ firstDay, lastDay, hours }) => [firstDay, lastDay, hours]);

// Worked by hand from the formula: of 4 steps over 14 days, bounds ⌊14i/4⌋ = 0, 3, 7, 10, 14 and 2 + 21i/4 hours.
describe('the wear-in in steps', () => {
  it('2 to 23 h over 14 days in 4 steps', () => {
    expect(stepsOf(4)).toEqual([
      [1, 3, 2],
      [4, 7, 7],
      [8, 10, 13],
      [11, 14, 18],
      [15, null, 23],
    ]);
    const [first, second] = buildUp({ firstWorn, wearIn }, 4);
    expect([first?.from, first?.to, second?.from, second?.to]).toEqual(['2026-03-02', '2026-03-04', '2026-03-05', '2026-03-08']);
    expect(buildUp({ firstWorn, wearIn }, 4).at(-1)).toMatchObject({ from: '2026-03-16', to: null });
  });

  it('has no more steps than days, or than hours that it rises; one at least', () => {
    expect(stepsOf(9, { days: 2 })).toEqual([
      [1, 1, 2],
      [2, 2, 13],
      [3, null, 23],
    ]);
    expect(stepsOf(9, { fullHours: 4 })).toEqual([
      [1, 7, 2],
      [8, 14, 3],
      [15, null, 4],
    ]);
    expect(stepsOf(0)).toEqual([
      [1, 14, 2],
      [15, null, 23],
    ]);
  });

  it('is the full hours from the first day where nothing rises, and nothing without a plan, before first wear, or where the plan falls', () => {
    expect(stepsOf(4, { fullHours: 2 })).toEqual([[1, null, 2]]);
    expect(stepsOf(4, { fullHours: 1 })).toEqual([]);
    expect(stepsOf(4, { days: 0 })).toEqual([]);
    expect(buildUp({ firstWorn: null, wearIn }, 4)).toEqual([]);
    expect(buildUp({ firstWorn, wearIn: null }, 4)).toEqual([]);
  });
});
