import { REACH_95 } from '../statistics/reach-95';
import type { LengthUnit } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';
import type { ShiftCheck } from './shift-check';

/**
 * What the shift check found, in one sentence with its figures; for a check without a finding, that the zero agrees.
 * Example: `The zero looks moved by about 2.0 cm towards the trunk, give or take 0.6 cm.`
 */
export function shiftInWords(shift: ShiftCheck, unit: LengthUnit): string {
  const about = showLengthWithUnit(Math.abs(shift.mm), unit);
  const giveOrTake = showLengthWithUnit(REACH_95 * shift.seMm, unit);
  const way = shift.mm > 0 ? 'towards the trunk' : 'away from the trunk';
  const asChange = `${Math.abs((shift.factor - 1) * 100).toFixed(1)}\u202f%`;
  switch (shift.finding) {
    case 'zero-moved':
      return `The zero looks moved by about ${about} ${way}, give or take ${giveOrTake}.`;
    case 'interval-slipped':
      return `A whole interval looks slipped: the rungs fit best ${about} ${way}.`;
    case 'inch-centimetre':
      return 'These girths read like the other unit: inches taken for centimetres, or the other way round.';
    case 'cannot-tell':
      return `Cannot tell a moved zero (about ${about} ${way}) from a real change on this stretch${asChange === '0.0\u202f%' ? '' : ` (${asChange} would remain)`}.`;
    default:
      return `The zero agrees with last time: ${about} ${way}, give or take ${giveOrTake}.`;
  }
}
