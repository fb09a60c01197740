import type { LengthUnit } from '../units/length';
import { showTapedLength } from '../units/show-length';
import { placeInWords } from './limb';

/** How a ladder counts its places: where its zero lies on an upward scale, mm, which way it was measured, and in which unit. */
export type Ruler = { readonly zero: string; readonly zeroMm: number; readonly direction: 'up' | 'down'; readonly unit: LengthUnit };

/** How far a place lies from zero in the direction of the tape, mm; negative beyond zero. Example: zero at 670, downward, a place at 630: 40. */
function alongTape(heightMm: number, { zeroMm, direction }: Ruler): number {
  return direction === 'up' ? heightMm - zeroMm : zeroMm - heightMm;
}

/**
 * A place as it reads on the tape it was measured with: the distance from zero, never with a minus; beyond zero the way is said.
 *
 * Shape: a height on the ruler's upward scale, mm. Example: zero at a gluteal fold at 670 mm, downward, cm: 630 mm is `4.0`, 690 mm is
 * `2.0 above`.
 */
export function placeOnTape(heightMm: number, ruler: Ruler, unit: LengthUnit = ruler.unit): string {
  const along = alongTape(heightMm, ruler);
  const beyond = along < -0.5 ? (ruler.direction === 'up' ? ' below' : ' above') : '';
  return `${showTapedLength(Math.abs(along), unit)}${beyond}`;
}

/** A stretch of a limb in the order of the tape: `4.0–42.0 cm down from the gluteal fold`. */
export function stretchOnTape(fromMm: number, toMm: number, ruler: Ruler): string {
  const [near, far] = ruler.direction === 'up' ? [fromMm, toMm] : [toMm, fromMm];
  return `${placeOnTape(near, ruler)}–${placeOnTape(far, ruler)}\u202f${ruler.unit} ${countedFrom(ruler)}`;
}

/** `up from the ankle crease`, `down from the gluteal fold` */
export function countedFrom({ zero, direction }: Pick<Ruler, 'zero' | 'direction'>): string {
  return `${direction} from the ${placeInWords(zero) || 'zero'}`;
}
