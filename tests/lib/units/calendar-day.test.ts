import { format, parseISO, startOfISOWeek } from 'date-fns';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addMonths,
  type CalendarDay,
  dayFromNumber,
  dayNumber,
  mondayOf,
  readDay,
  showDay,
  showDayOfYear,
  showShortWeekday,
  showWeekday,
} from '@/lib/units/calendar-day';

/** Every day from 1900 to 2199. */
const anyDay = fc.integer({ min: dayNumber('1900-01-01' as CalendarDay), max: dayNumber('2199-12-31' as CalendarDay) }).map(dayFromNumber);

describe('a day in words', () => {
  it('is written as date-fns 4 writes it (reference library)', () => {
    fc.assert(
      fc.property(anyDay, (day) => {
        const as = (pattern: string) => format(parseISO(day), pattern);
        expect([showDay(day), showDayOfYear(day), showWeekday(day), showShortWeekday(day)]).toEqual([
          as('d MMM yyyy'),
          as('d MMM'),
          as('EEEE d MMMM'),
          as('EEE d MMM'),
        ]);
      }),
      { seed: 7, numRuns: 5000 },
    );
  });

  it('is read only if the calendar has it (ISO 8601; 1900 was no leap year, 2000 was)', () => {
    expect(readDay('2000-02-29').kind).toBe('read');
    for (const text of ['1900-02-29', '2023-02-29', '29/02/2024', '2024-2-9', '2024-13-01', '']) expect(readDay(text).kind).toBe('refused');
  });

  it('lies in a week that begins on a Monday, as date-fns 4 counts it (reference library)', () => {
    fc.assert(
      fc.property(anyDay, (day) => {
        expect(mondayOf(day)).toBe(format(startOfISOWeek(parseISO(day)), 'yyyy-MM-dd'));
      }),
      { seed: 7, numRuns: 5000 },
    );
  });

  it('goes on by months to the same day, or to the last one of a shorter month', () => {
    expect(addMonths('2026-01-31' as CalendarDay, 1)).toBe('2026-02-28');
    expect(addMonths('2026-11-25' as CalendarDay, -24)).toBe('2024-11-25');
  });
});
