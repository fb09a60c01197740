import { describe, expect, it } from 'vitest';
import { ageInYears, showAge } from '@/lib/units/age';
import { calendarDay } from '@/lib/units/calendar-day';

const D = calendarDay;

describe('an age', () => {
  it('is in whole years completed, as birthdays are counted', () => {
    expect(ageInYears(D('2020-01-01'), D('2022-07-02'))).toBe(2);
    expect(ageInYears(D('2016-02-29'), D('2017-02-28'))).toBe(0);
    expect(ageInYears(D('2016-02-29'), D('2017-03-01'))).toBe(1);
  });

  it('is said in weeks, months or years as people say it', () => {
    expect(showAge(D('2026-01-01'), D('2026-02-05'))).toBe('5 weeks');
    expect(showAge(D('2026-01-01'), D('2026-04-02'))).toBe('13 weeks');
    expect(showAge(D('2026-01-01'), D('2026-04-03'))).toBe('3 months');
    expect(showAge(D('2024-01-15'), D('2025-12-15'))).toBe('23 months');
    expect(showAge(D('2024-01-15'), D('2026-01-15'))).toBe('2 years');
    expect(showAge(D('2015-02-10'), D('2026-03-10'))).toBe('11 years 1 month');
    expect(showAge(D('2015-02-10'), D('2025-11-11'))).toBe('10 years 9 months');
    expect(showAge(D('2008-12-01'), D('2026-11-30'))).toBe('17 years 11 months');
    expect(showAge(D('2008-05-01'), D('2026-11-30'))).toBe('18 years');
  });
});
