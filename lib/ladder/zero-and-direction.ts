import { mm } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';
import { isAcknowledged } from './acknowledged';
import type { Doubt } from './doubt';
import type { Ladder } from './ladder';
import { isLandmarkOf, type LandmarkId, LIMBS, type LimbKind, placeInWords } from './limb';

/**
 * The landmarks of a limb that lie ahead of a zero in a direction, from near to far; all of them for a zero that is no landmark.
 *
 * Example: upward from the knee lies the gluteal fold; downward from the wrist crease lies none.
 */
export function landmarksAhead(limb: LimbKind, zero: string, direction: 'up' | 'down'): readonly LandmarkId[] {
  const { landmarks } = LIMBS[limb];
  const inOrder = direction === 'up' ? [...landmarks] : [...landmarks].reverse();
  return isLandmarkOf(limb, zero) ? inOrder.slice(inOrder.indexOf(zero) + 1) : inOrder;
}

/**
 * Whether zero, direction and landmarks of a ladder can be true together: a limb goes on from its zero in that direction, and its
 * landmarks are met in their order.
 *
 * Shape: a ladder with at least one girth; a doubt about the whole ladder, or undefined. A zero and direction are only asked about: a
 * ladder of the foot or of the hip may be meant. Landmarks out of order are refused where they are typed or read from a ladders file, and
 * asked about in what comes from other programs. Source: the order of landmarks along a limb (anatomy).
 * Example: downward from the wrist crease no arm is left to measure; upward from the ankle crease the fold at 20 in and the knee at 21.
 */
export function zeroAndDirection(ladder: Ladder): Doubt | undefined {
  if (!ladder.rungs.some((rung) => rung.girth)) return undefined;
  const question = noLimbThatWay(ladder) ?? landmarkOutOfOrder(ladder)?.reason;
  if (question === undefined) return undefined;
  const doubt: Doubt = { kind: 'zero-direction', distanceMm: null, message: question };
  return isAcknowledged(ladder, doubt) ? undefined : doubt;
}

function noLimbThatWay({ limb, zero, direction }: Ladder): string | undefined {
  if (!isLandmarkOf(limb, zero) || landmarksAhead(limb, zero, direction).length > 0) return undefined;
  const [way, other] = direction === 'up' ? ['Upward', 'downward'] : ['Downward', 'upward'];
  return `${way} from the ${placeInWords(zero)}? No ${limb} is left to measure that way: from there a ladder goes ${other}. Look at zero and direction.`;
}

/**
 * The landmark of a ladder that cannot lie where it was found, and why; undefined when all lie ahead of zero and in their order.
 * Example: upward from the ankle, the fold nearer than the knee → the fold.
 */
export function landmarkOutOfOrder(ladder: Ladder): { readonly landmark: LandmarkId; readonly reason: string } | undefined {
  const { limb, zero, direction, landmarks, unit } = ladder;
  const ahead = landmarksAhead(limb, zero, direction);
  const way = direction === 'up' ? 'upward' : 'downward';
  const behind = landmarks.find(({ landmark }) => !ahead.includes(landmark));
  if (behind) {
    const where = `${showLengthWithUnit(mm(behind.distance.nm), unit)} ${way} from the ${placeInWords(zero)}`;
    return { landmark: behind.landmark, reason: `The ${placeInWords(behind.landmark)} ${where}? It lies the other way.` };
  }
  const met = ahead.flatMap((landmark) => landmarks.find((one) => one.landmark === landmark) ?? []);
  const index = met.findIndex((one, at) => at > 0 && one.distance.nm <= (met[at - 1]?.distance.nm ?? 0));
  const [near, far] = [met[index - 1], met[index]];
  if (!near || !far) return undefined;
  const question = `The ${placeInWords(far.landmark)} at ${showLengthWithUnit(mm(far.distance.nm), unit)}?`;
  const reason = `Going ${way}, it comes after the ${placeInWords(near.landmark)}, which is at ${showLengthWithUnit(mm(near.distance.nm), unit)}.`;
  return { landmark: far.landmark, reason: `${question} ${reason}` };
}
