import { tapedRungs } from '../alignment/reference-line';
import { type LastLadder, lastVisitLine, type TapingDay } from '../growth/expected-ladder';
import { isAcknowledged } from '../ladder/acknowledged';
import type { Doubt } from '../ladder/doubt';
import { doubtOfSides } from './doubts-of-whole';
import type { LimbOnSheet } from './limb-on-sheet';

/**
 * Whether both limbs were typed in each other's column; needs a last visit of both. A kept question is not raised again.
 * Example: left and right 30 mm apart last time, typed today the other way round → asked once, for both.
 */
export function sidesChanged(limbs: readonly LimbOnSheet[], today: TapingDay): Doubt | undefined {
  const [one, other] = limbs;
  if (!one?.last || !other?.last) return undefined;
  const first = sideAgainst(one, one.last, other.last, today);
  const second = sideAgainst(other, other.last, one.last, today);
  const doubt = first && second && doubtOfSides([first, second], one.ladder.limb);
  return doubt && !isAcknowledged(one.ladder, doubt) ? doubt : undefined;
}

function sideAgainst(limb: LimbOnSheet, itsLast: LastLadder, othersLast: LastLadder, today: TapingDay) {
  const own = lastVisitLine(itsLast, limb.ladder, today, true);
  const across = lastVisitLine(othersLast, limb.ladder, today, true);
  return own && across && { rungs: tapedRungs(limb.ladder), own, across };
}
