import { type CalendarDay, dayNumber } from './calendar-day';

const DAY_MS = 86_400_000;

/**
 * The instant of a clock time on a day in a time zone, milliseconds since 1970 (UTC).
 *
 * The zone's offset is asked at the guess and again at the corrected instant, which settles every offset but the hour that a clock change leaves
 * out or repeats: a time that is left out is read with the offset before the change, one that is repeated as its first.
 * Shape: a day, `HH:MM`, an IANA zone. Source: IANA time zone database through ECMA-402.
 * Example: 2026-03-29 09:30 in Europe/London is 08:30 UTC, the day after the clocks went forward in the night.
 */
export function instantOf(day: CalendarDay, time: string, timeZone: string): number {
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  const wall = dayNumber(day) * DAY_MS + (hours * 60 + minutes) * 60_000;
  const [before, after] = [offsetMs(wall - DAY_MS, timeZone), offsetMs(wall + DAY_MS, timeZone)];
  const first = wall - before;
  return offsetMs(first, timeZone) === before ? first : offsetMs(wall - after, timeZone) === after ? wall - after : first;
}

/** How far the wall clock of a zone is ahead of UTC at an instant. */
function offsetMs(instant: number, timeZone: string): number {
  const parts = new Intl.DateTimeFormat('en-US', {
    timeZone,
    hourCycle: 'h23',
    ...{ year: 'numeric', month: 'numeric', day: 'numeric', hour: 'numeric', minute: 'numeric' },
  }).formatToParts(instant);
  const part = (type: string) => Number(parts.find((one) => one.type === type)?.value ?? 0);
  const wall = Date.UTC(part('year'), part('month') - 1, part('day'), part('hour'), part('minute'));
  return wall - Math.floor(instant / 60_000) * 60_000;
}
