import { type Reading, refused } from '../../outcome';
import { type CalendarDay, readDay } from '../../units/calendar-day';
import type { DayOrder } from './mapping';

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/**
 * A day as spreadsheets write it, in the order that was chosen: `2026-03-02`, `02.03.2026`, `3/2/2026`, `2 Mar 2026`, `Mar 2, 2026`.
 *
 * A year of two figures is the last year that ends so and is not after `lastYear`; where nobody has said which, it is refused. Refuses a day that is not in the calendar. Months are read by their English names.
 * Example: `02/03/2026` is 2 March with `dmy` and 3 February with `mdy`.
 */
export function spreadsheetDay(text: string, order: DayOrder, lastYear: number | null): Reading<CalendarDay> {
  const parts = partsOf(text);
  if (!parts)
    return refused(
      /^\d{5}(\.\d+)?$/.test(text.trim())
        ? `“${text}” is a day’s serial number. Give the column the form of a date, and save it again.`
        : `“${text}” is not a day.`,
    );
  if (parts.named) return made(text, parts.named.year, parts.named.month, parts.named.day);
  const [one = '', two = '', short = ''] = parts.figures;
  const three = short.length === 2 && one.length < 4 && lastYear !== null ? String(lastYear - ((lastYear - Number(short)) % 100)) : short;
  if (one.length === 4) return made(text, one, two, three);
  if (three.length !== 4) return refused(`“${text}” has a year of two figures. Say which century, or write all four.`);
  if (order === 'ymd') return refused(`“${text}” does not begin with its year. Choose the order of day and month.`);
  return order === 'dmy' ? made(text, three, two, one) : made(text, three, one, two);
}

/** The last year that is taken for years of two figures while only the order of a day is looked for. */
export const ANY_CENTURY = 2099;

/** Whether a day is written with a year of two figures. */
export function hasShortYear(text: string): boolean {
  const figures = partsOf(text)?.figures ?? [];
  return figures[0]?.length !== 4 && figures[2]?.length === 2;
}

/** In which orders the days of a column can all be read: one is sure, two must be asked about, none is a column without days. */
export function ordersOf(texts: readonly string[]): readonly DayOrder[] {
  const orders: readonly DayOrder[] = ['ymd', 'dmy', 'mdy'];
  const found = orders.filter(
    (order) => texts.length > 0 && texts.every((text) => spreadsheetDay(text, order, ANY_CENTURY).kind === 'read'),
  );
  return found.includes('ymd') ? ['ymd'] : found;
}

/** True when a text has the form of a day, whether or not the calendar has it. */
export function looksLikeDay(text: string): boolean {
  return partsOf(text) !== undefined;
}

type Parts = {
  readonly figures: readonly string[];
  readonly named?: { readonly year: string; readonly month: string; readonly day: string };
};

function partsOf(text: string): Parts | undefined {
  const figures = /^(\d{1,4})[./-](\d{1,2})[./-](\d{2}|\d{4})\.?$/.exec(text.trim());
  if (figures) return { figures: figures.slice(1) };
  const named = /^(\d{1,2})\.? ([a-z]{3,9})\.?,? (\d{4})$/i.exec(text.trim()) ?? /^([a-z]{3,9})\.? (\d{1,2}),? (\d{4})$/i.exec(text.trim());
  if (!named) return undefined;
  const [, one = '', two = '', year = ''] = named;
  const [day, name] = /\d/.test(one) ? [one, two] : [two, one];
  const month = MONTHS.indexOf(name.slice(0, 3).toLowerCase()) + 1;
  return month === 0 ? undefined : { figures: [], named: { year, month: String(month), day } };
}

function made(text: string, year: string, month: string, day: string): Reading<CalendarDay> {
  const reading = readDay(`${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`);
  return reading.kind === 'read' ? reading : refused(`“${text}” is not in the calendar.`);
}
