import { parseISO } from 'date-fns';
import type { CalendarDay } from '../../units/calendar-day';

const MADE = new Map<string, Intl.DateTimeFormat>();

/** A day in a language, in the parts asked for. A formatter takes longer to make than to use: each is made once. */
export function dayIn(language: string, day: CalendarDay, parts: Intl.DateTimeFormatOptions): string {
  const key = `${language} ${JSON.stringify(parts)}`;
  const made = MADE.get(key) ?? new Intl.DateTimeFormat(language, parts);
  MADE.set(key, made);
  return made.format(parseISO(day));
}
