import { describe, expect, it } from 'vitest';
import { readBooking } from '@/lib/diary/booking';
import { closedOn, type Diary, EVERY_DAY, workingDayBefore } from '@/lib/diary/diary';
import { calendarDay } from '@/lib/units/calendar-day';
import { instantOf } from '@/lib/units/clock-instant';

const day = calendarDay;
const DIARY: Diary = {
  weekdays: [1, 2, 3, 4, 5],
  closed: [{ from: day('2026-12-24'), until: day('2027-01-01'), why: 'holidays' }],
  capacity: 2,
};
const LONG_AGO = day('2020-01-01');

describe('working days', () => {
  /** Weekdays by Python's datetime.date.weekday(); 5 Dec 2026 and 28 Feb 2032 are Saturdays, 29 Feb 2032 a Sunday, 29 Feb 2028 a Tuesday. */
  it.each([
    ['2026-12-05', '2026-12-04'],
    ['2026-12-04', '2026-12-04'],
    ['2027-01-03', '2026-12-23'],
    ['2032-02-29', '2032-02-27'],
    ['2028-02-29', '2028-02-29'],
  ])('the last one up to %s is %s', (on, found) => {
    expect(workingDayBefore(DIARY, day(on), LONG_AGO)).toBe(found);
  });

  it('what is due today stays today; a clinic that never works leaves days as they are; every day is one where nothing is said', () => {
    expect(workingDayBefore(DIARY, day('2026-12-05'), day('2026-12-05'))).toBe('2026-12-05');
    const never = { ...DIARY, closed: [{ from: LONG_AGO, until: day('2030-01-01'), why: 'x' }] };
    expect(workingDayBefore(never, day('2026-12-05'), LONG_AGO)).toBe('2026-12-05');
    expect(workingDayBefore(EVERY_DAY, day('2026-12-05'), LONG_AGO)).toBe('2026-12-05');
    expect(closedOn(DIARY, day('2026-12-25'))).toBe('Closed 24 Dec 2026 to 1 Jan 2027: holidays.');
    expect(closedOn(DIARY, day('2026-12-06'))).toBe('The clinic does not work on Sundays.');
  });
});

describe('a booking as typed', () => {
  const context = { today: day('2026-11-25'), diary: DIARY, onThatDay: (on: string) => (on === '2026-12-02' ? 2 : 0) };
  const read = (typed: Record<string, string>) => readBooking(typed, context);

  it('is read; a closed day and a full one are asked about, never refused', () => {
    expect(read({ day: '2026-12-01', time: '09:30', what: ' fit ' })).toEqual({
      kind: 'read',
      booking: { day: '2026-12-01', time: '09:30', what: 'fit', state: 'booked' },
      asks: [],
    });
    expect(read({ day: '2026-12-05' })).toMatchObject({ asks: ['Saturday 5 December: The clinic does not work on Saturdays.'] });
    expect(read({ day: '2026-12-02' })).toMatchObject({ asks: ['2 visits are booked on Wednesday 2 December; 2 a day are usual.'] });
  });

  it.each([
    [{ day: '' }, 'day'],
    [{ day: '2026-11-24' }, 'day'],
    [{ day: '2029-01-01' }, 'day'],
    [{ day: '2026-12-01', time: '25:00' }, 'time'],
    [{ day: '2026-12-01', what: 'x'.repeat(121) }, 'what'],
  ])('is refused at its box: %#', (typed, box) => {
    const found = read(typed as unknown as Record<string, string>);
    expect(found.kind === 'refused' && Object.keys(found.errors)).toEqual([box]);
  });
});

describe('a clock time as an instant', () => {
  /** By Python's zoneinfo (IANA): offsets before, in and after the clock changes of 2026; 02:30 does not exist on 29 Mar in Berlin. */
  it.each([
    ['2026-03-28', '09:30', 'Europe/London', '2026-03-28T09:30:00.000Z'],
    ['2026-03-29', '09:30', 'Europe/London', '2026-03-29T08:30:00.000Z'],
    ['2026-10-25', '09:30', 'Europe/London', '2026-10-25T09:30:00.000Z'],
    ['2026-10-25', '01:30', 'Europe/London', '2026-10-25T00:30:00.000Z'],
    ['2026-03-29', '02:30', 'Europe/Berlin', '2026-03-29T01:30:00.000Z'],
    ['2028-02-29', '23:45', 'America/New_York', '2028-03-01T04:45:00.000Z'],
    ['2026-11-01', '08:00', 'America/New_York', '2026-11-01T13:00:00.000Z'],
    ['2026-12-02', '09:00', 'Asia/Kathmandu', '2026-12-02T03:15:00.000Z'],
  ])('%s %s in %s is %s', (on, time, zone, instant) => {
    expect(new Date(instantOf(day(on), time, zone)).toISOString()).toBe(instant);
  });
});
