import type { OutgrowDate } from '../garments/outgrow-date';
import type { RoomToGrow } from '../garments/room-to-grow';
import { showDay } from '../units/calendar-day';
import type { LengthUnit } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';

/** How a piece stops fitting: a limb that became smaller has outgrown nothing. */
export function endOfFit({ by, earlyBy }: Pick<OutgrowDate, 'by' | 'earlyBy'>): 'outgrown' | 'too loose' {
  return (by ?? earlyBy) === 'looser' ? 'too loose' : 'outgrown';
}

/** `Expected to be outgrown from 9 Mar 2027, possibly from 12 Dec 2026`, or `… too loose …`: a forecast, and said as one. */
export function outgrownInWords(outgrow: OutgrowDate): string {
  const { earlyDay, day, lookedUntil } = outgrow;
  if (earlyDay === null) return `Still fits on ${showDay(lookedUntil)}, as far as can be seen`;
  const ends = endOfFit(outgrow);
  if (day === null) return `Expected to fit until ${showDay(lookedUntil)} at least, possibly ${ends} from ${showDay(earlyDay)}`;
  const possibly = earlyDay === day ? '' : `, possibly from ${showDay(earlyDay)}`;
  return `Expected to be ${ends} from ${showDay(day)}${possibly}`;
}

/** `¼ in, or ¾ in to be enough nine times in ten`: the middle and the 90 % estimate; one figure where both are the same. */
export function roomSizes({ middleMm, highMm }: Pick<RoomToGrow, 'middleMm' | 'highMm'>, unit: LengthUnit): string {
  const high = showLengthWithUnit(highMm, unit);
  return middleMm === highMm ? high : `${showLengthWithUnit(middleMm, unit)}, or ${high} to be enough nine times in ten`;
}
