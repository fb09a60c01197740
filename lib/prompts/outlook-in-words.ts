import type { OutgrowDate } from '../garments/outgrow-date';
import type { RoomToGrow } from '../garments/room-to-grow';
import { showDay } from '../units/calendar-day';
import { capital } from '../units/capital';
import type { LengthUnit } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';

/** How a piece stops fitting: a limb that became smaller has outgrown nothing. */
export function endOfFit({ by, earlyBy }: Pick<OutgrowDate, 'by' | 'earlyBy'>): 'outgrown' | 'too loose' {
  return (by ?? earlyBy) === 'looser' ? 'too loose' : 'outgrown';
}

/** `Outgrown 12 Dec 2026 at the earliest, more likely than not by 9 Mar 2027`, or `Too loose …`; one day where both are the same. */
export function outgrownInWords(outgrow: OutgrowDate): string {
  const { earlyDay, day, lookedUntil } = outgrow;
  if (earlyDay === null) return `Still fits on ${showDay(lookedUntil)}, as far as can be seen`;
  const ends = capital(endOfFit(outgrow));
  if (earlyDay === day) return `${ends} ${showDay(earlyDay)}`;
  const likely = day ? `more likely than not by ${showDay(day)}` : `but more likely than not it still fits on ${showDay(lookedUntil)}`;
  return `${ends} ${showDay(earlyDay)} at the earliest, ${likely}`;
}

/** `¼ in, or ¾ in to be enough nine times in ten`: the middle and the 90 % estimate; one figure where both are the same. */
export function roomSizes({ middleMm, highMm }: Pick<RoomToGrow, 'middleMm' | 'highMm'>, unit: LengthUnit): string {
  const high = showLengthWithUnit(highMm, unit);
  return middleMm === highMm ? high : `${showLengthWithUnit(middleMm, unit)}, or ${high} to be enough nine times in ten`;
}
