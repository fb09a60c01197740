import { movedBy } from '../alignment/align-ladders';
import { checkShift, type ShiftCheck } from '../alignment/shift-check';
import type { Policy } from '../limits/policy';
import { type LimbChange, tensionBetween } from './limb-change';
import { tapeErrorOf } from './limb-series';
import { type MeasuredChange, measuredChange } from './measured-change';

/** A limb's change with what its girths say of a moved zero. */
export type CheckedChange = LimbChange & {
  /** Undefined with fewer than four rungs in common. */
  readonly shift: ShiftCheck | undefined;
  /** The same change with the shift that girths suggest taken out; the therapist chooses, nothing is corrected. */
  readonly realigned: MeasuredChange | undefined;
};

/**
 * A change with the zero checked by girths, and measured once more where a moved zero is found.
 *
 * A finding that a therapist has answered (`zeroChoice` of the later ladder) is not raised again.
 * Shape: a change and the clinic's policy. Source: engine section 4.
 * Example: a leg taped from 2 cm above the crease has `shift.finding` `zero-moved` and both readings side by side.
 */
export function checkedChange(change: LimbChange, policy: Policy): CheckedChange {
  const { earlier, later, alignment } = change;
  const tape = tapeErrorOf(policy);
  const lines = [earlier.placed.line, later.placed.line] as const;
  const checked = checkShift(...lines, alignment, change.expectedAt, tape.readingMm, tape.placementMm, policy.shiftAskMm);
  const shift = checked && later.ladder.zeroChoice && checked.finding !== 'inch-centimetre' ? { ...checked, finding: null } : checked;
  const moved = shift?.finding && shift.finding !== 'inch-centimetre' ? movedBy(alignment, -shift.residualMm) : undefined;
  const realigned = moved && measuredChange(...lines, moved, tape, tensionBetween(change.sameMeasurer, tape));
  return { ...change, shift, realigned };
}
