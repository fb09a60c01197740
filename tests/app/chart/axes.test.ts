import { describe, expect, it } from 'vitest';
import { timeAxis } from '@/app/_chart/time-axis';
import { valueAxis } from '@/app/_chart/value-axis';
import { calendarDay } from '@/lib/units/calendar-day';

describe('the time axis', () => {
  it('is true to dates: equal days are equal pixels, over a leap day too', () => {
    const axis = timeAxis(calendarDay('2024-02-01'), calendarDay('2024-03-12'), 0, 400);
    expect(axis.x(calendarDay('2024-02-11'))).toBeCloseTo(100, 6);
    expect(axis.x(calendarDay('2024-03-12'))).toBeCloseTo(400, 6);
    expect(axis.x(calendarDay('2024-03-01')) - axis.x(calendarDay('2024-02-28'))).toBeCloseTo(20, 6);
  });

  it('starts weeks on Mondays and months on their first day (25 November 2026 is a Wednesday)', () => {
    const axis = timeAxis(calendarDay('2026-11-25'), calendarDay('2026-12-25'), 0, 300);
    expect(axis.weeks[0]).toBeCloseTo(50, 6);
    expect(axis.months.map((month) => month.x)).toEqual([60]);
    expect(axis.months[0]?.name).toBe('Dec');
  });

  it('thins month names to what fits, and writes the year once under each January', () => {
    const axis = timeAxis(calendarDay('2024-06-10'), calendarDay('2027-06-10'), 0, 400);
    const named = axis.months.filter((month) => month.name);
    expect(named.length).toBeLessThan(16);
    expect(axis.months.filter((month) => month.year).map((month) => month.year)).toEqual(['2024', '2025', '2026', '2027']);
  });

  it('holds a single day', () => {
    expect(timeAxis(calendarDay('2026-01-01'), calendarDay('2026-01-01'), 0, 100).x(calendarDay('2026-01-01'))).toBe(0);
  });
});

describe('the value axis', () => {
  it('covers the range with round steps of 1, 2 or 5 times a power of ten', () => {
    expect(valueAxis(3836, 4670, 200, 0).ticks).toEqual([3500, 4000, 4500, 5000]);
    expect(valueAxis(-0.031, 0.186, 0, 100).ticks).toEqual([-0.1, 0, 0.1, 0.2]);
  });

  it('draws upward: the largest value is nearest the top', () => {
    const axis = valueAxis(0, 10, 200, 0);
    expect(axis.y(0)).toBe(200);
    expect(axis.y(10)).toBe(0);
  });

  it('holds one value', () => {
    const axis = valueAxis(100, 100, 200, 0);
    expect(axis.low).toBeLessThanOrEqual(100);
    expect(axis.high).toBeGreaterThanOrEqual(100);
    expect(axis.ticks.length).toBeGreaterThan(1);
  });
});
