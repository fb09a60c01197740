import { readDay, showDay, showShortWeekday } from '../units/calendar-day';
import type { VisitForm } from '../visit-form/visit-form';

/** The day and time of a visit as its form has them; nothing while the day is being typed. Example: `Tue 25 Aug 2026, 14:20` */
export function tapedWhen({ day, time }: Pick<VisitForm, 'day' | 'time'>): string {
  const read = readDay(day);
  if (read.kind !== 'read') return '';
  return `${showShortWeekday(read.value).split(' ')[0]} ${showDay(read.value)}${time ? `, ${time}` : ''}`;
}
