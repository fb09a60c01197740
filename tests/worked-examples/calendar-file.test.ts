import fc from 'fast-check';
import ICAL from 'ical.js';
import nodeIcal from 'node-ical';
import { describe, expect, it } from 'vitest';
import { calendarEntries } from '@/lib/schedule/calendar-entries';
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
  url: 'https://clinic.example/patients/7',
  alarmDays: null,
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

  it('says name, address and reminder to two readers that nobody here wrote (ical.js, node-ical)', () => {
    const file = calendarFile(
      [entry({ alarmDays: 2 }), entry({ uid: 'gone@b', cancelled: true, sequence: 3, alarmDays: 2 })],
      'Garment dates',
    );
    const calendar = new ICAL.Component(ICAL.parse(file));
    expect([calendar.getFirstPropertyValue('name'), calendar.getFirstPropertyValue('x-wr-calname')]).toEqual([
      'Garment dates',
      'Garment dates',
    ]);
    expect(String(calendar.getFirstPropertyValue('refresh-interval'))).toBe('P1D');
    const [event, gone] = calendar.getAllSubcomponents('vevent');
    expect(event?.getFirstPropertyValue('url')).toBe('https://clinic.example/patients/7');
    // Two days before at nine in the morning is 39 hours before the day begins: 2 × 24 − 9.
    const trigger = event?.getFirstSubcomponent('valarm')?.getFirstPropertyValue('trigger') as ICAL.Duration;
    expect([trigger.toSeconds(), gone?.getFirstSubcomponent('valarm')]).toEqual([-39 * 3600, null]);
    const read = Object.values(nodeIcal.sync.parseICS(file)).filter((one) => one?.type === 'VEVENT');
    expect(read).toHaveLength(2);
    const [first, second] = read as unknown as Record<string, unknown>[];
    expect(first).toMatchObject({
      uid: 'a@b',
      summary: 'Visit, HL-0147',
      status: 'CONFIRMED',
      datetype: 'date',
      url: 'https://clinic.example/patients/7',
      alarms: [expect.objectContaining({ action: 'DISPLAY', trigger: '-PT39H' })],
    });
    expect([second?.uid, second?.status, Number(second?.sequence), Number(first?.sequence)]).toEqual(['gone@b', 'CANCELLED', 3, 0]);
    const day = (first as { start: Date }).start;
    expect([day.getFullYear(), day.getMonth(), day.getDate()]).toEqual([2026, 10, 25]);
  });

  it('a moved date replaces itself in a reader that merges by id: one event, the later sequence, the new day', () => {
    const before = calendarFile([entry()], 'dates');
    const after = calendarFile([entry({ day: calendarDay('2026-12-02'), sequence: 1 })], 'dates');
    const kept = { ...nodeIcal.sync.parseICS(before), ...nodeIcal.sync.parseICS(after) };
    const events = Object.values(kept).filter((one) => one?.type === 'VEVENT') as unknown as { sequence: string; start: Date }[];
    expect(events).toHaveLength(1);
    expect([Number(events[0]?.sequence), events[0]?.start.getDate(), events[0]?.start.getMonth()]).toEqual([1, 2, 11]);
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

  /** Instants by Python's zoneinfo: summer time ended in London on 25 Oct 2026; 29 Feb 2028 is a leap day. */
  it.each([
    ['2026-10-24', '09:30', 'Europe/London', '2026-10-24T08:30:00.000Z'],
    ['2026-10-26', '09:30', 'Europe/London', '2026-10-26T09:30:00.000Z'],
    ['2028-02-29', '23:45', 'America/New_York', '2028-03-01T04:45:00.000Z'],
  ])('a booked time of %s %s in %s is %s to both readers, 45 minutes long', (day, time, timeZone, instant) => {
    const dates = [
      {
        ...{ id: 'a', patientId: '7', reference: 'HL-0147', kind: 'booking' as const, day: calendarDay(day), time },
        ...{ state: 'open' as const, sequence: 0, changedAt: new Date('2026-10-01T10:00:00Z') },
      },
    ];
    const about = { address: 'https://clinic.example', alarmDays: 1, timeZone };
    const file = calendarFile(calendarEntries(dates, 'b', calendarDay('2026-10-01'), about), 'dates');
    const event = new ICAL.Event(new ICAL.Component(ICAL.parse(file)).getFirstSubcomponent('vevent') as ICAL.Component);
    expect([event.startDate.toJSDate().toISOString(), event.startDate.isDate, event.duration.toSeconds()]).toEqual([
      instant,
      false,
      45 * 60,
    ]);
    const [read] = Object.values(nodeIcal.sync.parseICS(file)).filter((one) => one?.type === 'VEVENT') as unknown as {
      start: Date;
      summary: string;
    }[];
    expect([read?.start.toISOString(), read?.summary]).toEqual([instant, 'Visit booked, HL-0147']);
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
