import { addDays, type CalendarDay } from '../units/calendar-day';

/** One date of the schedule as a calendar shows it: a whole day or a booked time, without a name and without a diagnosis. */
export type CalendarEntry = {
  /** The same for one date of one patient for ever, so that a moved date moves instead of standing twice. */
  readonly uid: string;
  readonly day: CalendarDay;
  /** When a booked visit begins, in milliseconds since 1970 (UTC); left out for a whole day. */
  readonly startMs?: number;
  /** Kind and reference only: `Visit, HL-0147`. */
  readonly summary: string;
  readonly cancelled: boolean;
  /** Rises with every move or cancellation. */
  readonly sequence: number;
  /** When it last changed, in milliseconds since 1970 (UTC). */
  readonly changedAtMs: number;
  /** Where the date is looked at, behind a sign-in. */
  readonly url: string;
  /** Days before on which the program reminds, at nine in the morning; null for none. A cancelled date reminds of nothing. */
  readonly alarmDays: number | null;
};

/** How long a booked visit is taken to be, minutes: the record has no length. Clinic default. */
const VISIT_MINUTES = 45;

/** The hour of the day on which a reminder comes. Common practice: the beginning of a working day. */
const ALARM_HOUR = 9;

/**
 * A calendar file of whole-day entries and of booked times, which stand in UTC.
 *
 * Lines end with CRLF and are folded at 75 octets, never inside a character; text is escaped; the end of a whole day is the next day,
 * exclusive; a cancelled entry stays with `STATUS:CANCELLED` and a higher `SEQUENCE`, so that calendars remove it.
 * Shape: entries and the calendar's name; text. Source: RFC 5545 sections 3.1, 3.3.11, 3.6.1, 3.8.1.11, 3.8.4.6 (URL), 3.6.6 (VALARM), 3.8.7.4; RFC 7986 5.1 and 5.7 (NAME,
 * REFRESH-INTERVAL); the two X- properties say the same to programs that read no RFC 7986 (common practice).
 * Example: 2024-02-29 is `DTSTART;VALUE=DATE:20240229` and `DTEND;VALUE=DATE:20240301`.
 */
export function calendarFile(entries: readonly CalendarEntry[], name: string): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Rungwise//Dates of a garment clinic//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    `NAME:${escaped(name)}`,
    `X-WR-CALNAME:${escaped(name)}`,
    'REFRESH-INTERVAL;VALUE=DURATION:P1D',
    'X-PUBLISHED-TTL:P1D',
    ...entries.flatMap(entryLines),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join('');
}

function entryLines({ uid, day, startMs, summary, cancelled, sequence, changedAtMs, url, alarmDays }: CalendarEntry): string[] {
  const changed = utc(changedAtMs);
  return [
    'BEGIN:VEVENT',
    `UID:${escaped(uid)}`,
    `DTSTAMP:${changed}`,
    `LAST-MODIFIED:${changed}`,
    `SEQUENCE:${sequence}`,
    ...(startMs === undefined
      ? [`DTSTART;VALUE=DATE:${basic(day)}`, `DTEND;VALUE=DATE:${basic(addDays(day, 1))}`]
      : [`DTSTART:${utc(startMs)}`, `DTEND:${utc(startMs + VISIT_MINUTES * 60_000)}`]),
    `SUMMARY:${escaped(summary)}`,
    `STATUS:${cancelled ? 'CANCELLED' : 'CONFIRMED'}`,
    `TRANSP:${startMs === undefined ? 'TRANSPARENT' : 'OPAQUE'}`,
    'CLASS:CONFIDENTIAL',
    `URL:${url}`,
    ...(alarmDays === null || cancelled ? [] : alarmLines(summary, alarmDays, startMs !== undefined)),
    'END:VEVENT',
  ];
}

/** A reminder: so many hours before the day begins, so many whole days before a booked time. Example: one day before at nine is `-PT15H`. */
function alarmLines(summary: string, days: number, booked: boolean): string[] {
  return [
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    `DESCRIPTION:${escaped(summary)}`,
    `TRIGGER:-PT${24 * days - (booked ? 0 : ALARM_HOUR)}H`,
    'END:VALARM',
  ];
}

function basic(day: CalendarDay): string {
  return day.replaceAll('-', '');
}

/** `20261125T134500Z` */
function utc(ms: number): string {
  return `${new Date(ms).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`;
}

/** TEXT of RFC 5545 3.3.11: backslash, semicolon and comma escaped, a line break as `\n`; other control characters are left out. */
function escaped(text: string): string {
  return text
    .replaceAll(/\r\n|\r|\n/g, '\n')
    .replaceAll(/[\\;,]/g, (mark) => `\\${mark}`)
    .replaceAll('\n', '\\n')
    .replaceAll(/(?!\t)\p{Cc}/gu, '');
}

const MOST_OCTETS = 75;

/** A content line cut so that none is longer than 75 octets of UTF-8; each further line starts with one blank, which counts. */
function folded(line: string): string {
  const parts: string[] = [];
  let part = '';
  let octets = 0;
  for (const character of line) {
    const size = octetsOf(character);
    if (octets + size > MOST_OCTETS) {
      parts.push(part);
      part = ' ';
      octets = 1;
    }
    part += character;
    octets += size;
  }
  return [...parts, part].join('\r\n');
}

/** Octets of one character in UTF-8. A lone half of a surrogate pair becomes U+FFFD, three octets, when it is encoded. */
function octetsOf(character: string): number {
  const point = character.codePointAt(0) ?? 0;
  return point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
}
