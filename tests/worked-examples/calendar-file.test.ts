import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { type CalendarEntry, calendarFile } from '@/lib/schedule/calendar-file';
import { addDays, calendarDay, dayFromNumber } from '@/lib/units/calendar-day';

/** Read back by ical.js, a parser that knows nothing of ours. */
function readBack(file: string) {
  const calendar = new ICAL.Component(ICAL.parse(file));
  return {
    name: calendar.getFirstPropertyValue('name'),
    events: calendar.getAllSubcomponents('vevent').map((component) => {
      const event = new ICAL.Event(component);
      return {
        uid: event.uid,
        summary: event.summary,
        start: event.startDate.toString(),
        end: event.endDate.toString(),
        wholeDay: event.startDate.isDate && event.endDate.isDate,
        sequence: Number(component.getFirstPropertyValue('sequence')),
        status: component.getFirstPropertyValue('status'),
        changed: (component.getFirstPropertyValue('last-modified') as ICAL.Time).toJSDate().getTime(),
      };
    }),
  };
}

const entry = (rest: Partial<CalendarEntry> = {}): CalendarEntry => ({
  uid: 'a@b',
  day: calendarDay('2026-11-25'),
  summary: 'Visit, HL-0147',
  cancelled: false,
  sequence: 0,
  changedAtMs: Date.UTC(2026, 10, 25, 13, 45),
  ...rest,
});

describe('a calendar file (RFC 5545)', () => {
  it('comes back equal from an independent parser, for 10,000 random texts', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 200 }),
      fc.string({ unit: 'grapheme', maxLength: 200 }),
      fc.string({ unit: fc.constantFrom('\\', ';', ',', '\n', 'n', 'N', '"', ':', 'ä', '😀'), maxLength: 100 }),
    );
    fc.assert(
      fc.property(text, fc.integer({ min: 0, max: 40_000 }), fc.nat(500), (typed, day, sequence) => {
        // A line break is a line break however it was written; other control characters have no place in TEXT (3.1, 3.3.11).
        const summary = typed.replaceAll(/\r\n|\r|\n/g, '\n').replaceAll(/(?![\t\n])\p{Cc}/gu, '');
        const file = calendarFile([entry({ summary: typed, day: dayFromNumber(day), sequence })], 'dates');
        const [event] = readBack(file).events;
        return (
          event?.summary === summary &&
          event.start === dayFromNumber(day) &&
          event.end === addDays(dayFromNumber(day), 1) &&
          event.wholeDay &&
          event.sequence === sequence
        );
      }),
      { numRuns: 10_000, seed: 20261125 },
    );
  });

  it('has no line longer than 75 octets, and ends every line with CRLF', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 400 }), (summary) => {
        const file = calendarFile([entry({ summary })], summary);
        const lines = file.split('\r\n');
        return lines.pop() === '' && lines.every((line) => Buffer.byteLength(line) <= 75 && !/[\r\n]/.test(line));
      }),
      { numRuns: 2_000, seed: 20261125 },
    );
  });

  it.each([
    ['2024-02-28', '2024-02-29'],
    ['2024-02-29', '2024-03-01'],
    ['2026-12-31', '2027-01-01'],
    ['2026-03-29', '2026-03-30'],
  ])('%s ends on %s, exclusive: leap days, year ends and days of a clock change alike', (day, end) => {
    expect(readBack(calendarFile([entry({ day: calendarDay(day) })], 'dates')).events[0]).toMatchObject({
      start: day,
      end,
      wholeDay: true,
    });
  });

  it('a moved date keeps its id with a higher sequence; a cancelled one says so', () => {
    const moved = entry({ day: calendarDay('2026-12-02'), sequence: 1 });
    const gone = entry({ uid: 'c@b', cancelled: true, sequence: 2 });
    expect(readBack(calendarFile([moved, gone], 'dates')).events).toMatchObject([
      { uid: 'a@b', start: '2026-12-02', sequence: 1, status: 'CONFIRMED' },
      { uid: 'c@b', sequence: 2, status: 'CANCELLED', changed: Date.UTC(2026, 10, 25, 13, 45) },
    ]);
  });
});
