import { type Reading, read, refused } from '../outcome';

/**
 * A clock time as files carry it, whichever program saved them: hours and minutes of 24 hours, two figures each.
 *
 * Reads `14:10`, `9:20`, `14:10:00`, `02:10:00 PM`, `2:10 p.m.`; refuses anything else. Seconds other than none are refused: nobody wrote them.
 * Shape: a cell's text; `HH:MM`. Source: common practice of spreadsheet programs (h:mm, hh:mm:ss AM/PM).
 * Example: `02:10:00 PM` is `14:10`.
 */
export function readClockTime(text: string): Reading<string> {
  const found = /^(\d{1,2}):(\d{2})(?::00(?:\.0{1,3})?)?\s?(a\.?m\.?|p\.?m\.?)?$/i.exec(text.trim());
  const [, hour = '', minute = '', half] = found ?? [];
  const hours = (Number(hour) % (half ? 12 : 24)) + (half?.toLowerCase().startsWith('p') ? 12 : 0);
  const possible = found && Number(minute) < 60 && (half ? Number(hour) >= 1 && Number(hour) <= 12 : Number(hour) < 24);
  if (!possible) return refused(`“${text}” is not a clock time. Write it as 14:26.`);
  return read(`${String(hours).padStart(2, '0')}:${minute}`);
}
