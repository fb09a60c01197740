import { type CalendarDay, showDay } from '../units/calendar-day';
import type { ObservedKind } from './kind';
import type { Observation } from './observation';

/** What cannot be of an observation: its day, the day it was gone, or one of its figures (`item-…`), and why. */
export type ObservationFault = { readonly field: 'day' | 'gone' | `item-${string}`; readonly reason: string };

/**
 * What cannot be of an observation, whether it is typed, corrected or brought in; nothing where all of it can be.
 *
 * Refused: a day before birth or after today; a day gone that is before it was seen or after today; a figure outside the range of its item,
 * ends included, or of no item of its kind. Figures of another version of the kind, or of a kind that is not known, have no known range.
 *
 * Shape: kind, an observation of it, birth and today. Cost: linear. Source: definitions of the catalogue.
 * Example: a mark seen on 14 October and gone on 13 October has one fault, at `gone`.
 */
export function observationFaults(
  kind: ObservedKind | undefined,
  { version, day, gone, figures }: Pick<Observation, 'version' | 'day' | 'gone' | 'figures'>,
  born: CalendarDay,
  today: CalendarDay,
): readonly ObservationFault[] {
  const faults: ObservationFault[] = [];
  if (day > today) faults.push({ field: 'day', reason: `${showDay(day)} has not come yet.` });
  else if (day < born) faults.push({ field: 'day', reason: `${showDay(day)} is before birth on ${showDay(born)}.` });
  if (gone && gone > today) faults.push({ field: 'gone', reason: `${showDay(gone)} has not come yet.` });
  else if (gone && gone < day)
    faults.push({ field: 'gone', reason: `Gone on ${showDay(gone)}, and seen on ${showDay(day)}, after that day.` });
  if (kind?.version !== version) return faults;
  for (const [id, value] of Object.entries(figures)) {
    const item = kind.items.find((one) => one.id === id);
    if (!item) faults.push({ field: `item-${id}`, reason: `${kind.label} has no figure “${id.slice(0, 60)}”.` });
    else if (!(value >= item.low && value <= item.high))
      faults.push({ field: `item-${id}`, reason: `From ${item.low} to ${item.high}${item.unit ? ` ${item.unit}` : ''}.` });
  }
  return faults;
}
