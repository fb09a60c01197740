import { distalLandmark, type LimbKind, type Side } from '../ladder/limb';
import type { LengthUnit } from '../units/length';
import type { LimbSheet } from './visit-form';

/** Interval of a clinic's first ladder. 1½ in: burn garments, from memory; 4 cm: lymphoedema, Lymphoedema Framework 2006. */
export const FIRST_INTERVAL: Readonly<Record<LengthUnit, string>> = { in: '1 1/2', cm: '4' };

/** Rows shown before the far landmark is typed at a first visit. Clinic default. */
const FIRST_COUNT = 10;

/**
 * The sheet of a limb that was never taped: zero at the far landmark, upward, the clinic's unit, both sides.
 *
 * Example: a leg in a clinic that tapes in inches: ankle crease, up, every 1½ in.
 */
export function firstSheet(limb: LimbKind, unit: LengthUnit, sides: readonly Side[] = ['right', 'left']): LimbSheet {
  return {
    limb,
    sides,
    zero: distalLandmark(limb),
    direction: 'up',
    unit,
    interval: FIRST_INTERVAL[unit],
    fromZero: false,
    endRow: true,
    count: FIRST_COUNT,
    more: 0,
    extras: [],
    apart: false,
    marks: {},
    cells: {},
  };
}
