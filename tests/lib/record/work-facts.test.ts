import { describe, expect, it } from 'vitest';
import { type Booking, bookingStanding } from '@/lib/diary/booking';
import { factFaults, NO_FACTS, ringWords } from '@/lib/record/work-facts';
import { WORK_FACTS } from '@/lib/record/work-facts-schema';
import { calendarDay } from '@/lib/units/calendar-day';
import { FACTS } from '../made-up-noted';

const [BORN, TODAY] = [calendarDay('2015-02-17'), calendarDay('2026-11-25')];

describe('facts for the work', () => {
  it('stand, all of them or none', () => {
    expect(factFaults(FACTS, BORN, TODAY)).toEqual([]);
    expect(factFaults(NO_FACTS, BORN, TODAY)).toEqual([]);
    expect(WORK_FACTS.parse(FACTS)).toEqual(FACTS);
    expect(WORK_FACTS.safeParse({ ...FACTS, burntPct: 120 }).success).toBe(false);
  });

  it.each([
    [{ referralUntil: calendarDay('2026-08-31') }, 'referralUntil', 'It ends on 31 Aug 2026, before it begins on 1 Sep 2026.'],
    [{ healed: calendarDay('2025-11-19') }, 'healed', 'Healed on 19 Nov 2025, before it happened on 20 Nov 2025.'],
    [
      { grafted: [calendarDay('2025-11-28'), calendarDay('2025-11-19')] },
      'grafted1',
      'Grafted on 19 Nov 2025, before it happened on 20 Nov 2025.',
    ],
    [
      { injured: calendarDay('2015-02-16'), healed: null, grafted: [] },
      'injured',
      'It happened on 16 Feb 2015, before birth on 17 Feb 2015.',
    ],
    [{ consents: [{ to: 'x', day: calendarDay('2026-11-26') }] }, 'consentDay0', '26 Nov 2026 has not come yet.'],
  ])('that contradict are named at their box: %#', (change, field, reason) => {
    expect(factFaults({ ...FACTS, ...change }, BORN, TODAY)).toEqual([{ field, reason }]);
  });

  it('say whom to call: the first contact, with the number', () => {
    expect(ringWords(FACTS)).toBe('Call Ada Vance (mother), 555-0177, with an interpreter');
    expect(ringWords({ ...NO_FACTS, contacts: [{ name: 'Tom', relation: null, phone: null }] })).toBe('Call Tom, no number');
    expect(ringWords(NO_FACTS)).toBeUndefined();
  });
});

describe('a booking', () => {
  const booking: Booking = { day: calendarDay('2026-11-20'), time: null, what: null, state: 'booked' };
  const none = new Set<never>();

  it('is kept by a visit of its day, ahead until its day has passed, then not said', () => {
    expect(bookingStanding(booking, new Set([booking.day]), TODAY)).toBe('kept');
    expect(bookingStanding({ ...booking, state: 'missed' }, new Set([booking.day]), TODAY)).toBe('kept');
    expect(bookingStanding({ ...booking, state: 'cancelled by the clinic' }, new Set([booking.day]), TODAY)).toBe(
      'cancelled by the clinic',
    );
    expect(bookingStanding(booking, none, booking.day)).toBe('ahead');
    expect(bookingStanding(booking, none, TODAY)).toBe('not said');
    expect(bookingStanding({ ...booking, state: 'missed' }, none, TODAY)).toBe('missed');
  });
});
