import { limbInWords, placeInWords } from '../ladder/limb';
import type { LimbChange } from '../trend/limb-change';
import type { UnevenChange } from '../trend/uneven-change';
import { pct, signedPct } from './show-figures';

/** The two parts of a limb in words: `below the knee` and `above it`, or the far and the near half of what was taped. */
export function partsInWords({ at }: UnevenChange): { readonly far: string; readonly near: string } {
  return at ? { far: `below the ${placeInWords(at)}`, near: 'above it' } : { far: 'in the far half', near: 'in the near half' };
}

/** How far the parts differ beyond what is expected: `4.8 % (give or take 1.7 %)`. */
export function differenceInWords({ ratio, sd }: UnevenChange): string {
  return `${pct(ratio - 1)} (give or take ${pct(1.96 * sd)})`;
}

/**
 * An uneven change as one sentence for the therapist: both parts' girth and the difference that nothing explains.
 *
 * Says what was measured, never what it means for health. Shape: an uneven change and the limb's change.
 * Example: "Not all of the left leg did the same: girth below the knee +5.1 %, above it +0.2 %; the difference is 4.8 % (give or take
 * 1.7 %) beyond what is expected."
 */
export function unevenSentence(uneven: UnevenChange, { later }: LimbChange): string {
  const { far, near } = partsInWords(uneven);
  const limb = limbInWords(later.ladder.limb, later.ladder.side);
  return `Not all of the ${limb} did the same: girth ${far} ${signedPct(uneven.far.girthRatio - 1)}, ${near} ${signedPct(uneven.near.girthRatio - 1)}; the difference is ${differenceInWords(uneven)} beyond what is expected.`;
}
