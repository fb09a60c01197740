import type { OutgrowDate } from '../garments/outgrow-date';
import type { RoomToGrow } from '../garments/room-to-grow';
import { showDay } from '../units/calendar-day';
import type { LengthUnit } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';

/** `Outgrown 12 Dec 2026 at the earliest, more likely than not by 9 Mar 2027`; one day where both are the same. */
export function outgrownInWords({ earlyDay, day, lookedUntil }: OutgrowDate): string {
  if (earlyDay === null) return `Not outgrown by ${showDay(lookedUntil)}, as far as can be seen`;
  if (earlyDay === day) return `Outgrown ${showDay(earlyDay)}`;
  const likely = day ? `more likely than not by ${showDay(day)}` : `but more likely than not it still fits on ${showDay(lookedUntil)}`;
  return `Outgrown ${showDay(earlyDay)} at the earliest, ${likely}`;
}

/** `¼ in, or ¾ in to be enough nine times in ten`: the middle and the 90 % estimate; one figure where both are the same. */
export function roomSizes({ middleMm, highMm }: Pick<RoomToGrow, 'middleMm' | 'highMm'>, unit: LengthUnit): string {
  const high = showLengthWithUnit(highMm, unit);
  return middleMm === highMm ? high : `${showLengthWithUnit(middleMm, unit)}, or ${high} to be enough nine times in ten`;
}
