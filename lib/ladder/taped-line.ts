import type { Ladder } from './ladder';
import { isLandmarkOf, type LandmarkId } from './limb';

/**
 * A ladder ready for arithmetic: places and girths in millimetres on one upward ruler.
 *
 * `placesMm` rises strictly towards the trunk, whatever the direction of taping; zero of the ladder is at 0.
 * `landmarks` holds the landmarks met, on the same ruler; a zero that is a landmark is among them at 0.
 */
export type TapedLine = {
  readonly placesMm: readonly number[];
  readonly girthsMm: readonly number[];
  readonly landmarks: ReadonlyMap<LandmarkId, number>;
};

/**
 * A ladder's rungs and landmarks on an upward ruler. Rungs without a girth are left out, never read as 0.
 *
 * Example: a ladder from the gluteal fold down with rungs at 0 and 4 cm has places −40 and 0 mm.
 */
export function tapedLine(ladder: Ladder): TapedLine {
  const taped = ladder.rungs
    .flatMap((rung) => (rung.girth ? [{ place: placeOf(ladder, rung.distance.nm / 1e6), girth: rung.girth.nm / 1e6 }] : []))
    .sort((lower, upper) => lower.place - upper.place);
  const landmarks = new Map<LandmarkId, number>();
  if (isLandmarkOf(ladder.limb, ladder.zero)) landmarks.set(ladder.zero, 0);
  for (const { landmark, distance } of ladder.landmarks) landmarks.set(landmark, placeOf(ladder, distance.nm / 1e6));
  return { placesMm: taped.map((rung) => rung.place), girthsMm: taped.map((rung) => rung.girth), landmarks };
}

/**
 * A distance from a ladder's zero as a place on its upward ruler, mm; with the zero moved back where a therapist chose so.
 *
 * Example: 40 mm down from the gluteal fold is −40; 40 mm up from a crease whose zero was taken 20 mm too high is 60.
 */
export function placeOf(ladder: Ladder, distanceMm: number): number {
  return (ladder.direction === 'up' ? distanceMm : -distanceMm) + movedBack(ladder);
}

/** A place on a ladder's upward ruler as a distance from its zero, mm; undoes `placeOf`. Example: −40 on a ladder down from the fold is 40. */
export function distanceAt(ladder: Ladder, placeMm: number): number {
  const along = placeMm - movedBack(ladder);
  return ladder.direction === 'up' ? along : -along;
}

function movedBack({ zeroChoice }: Ladder): number {
  return zeroChoice?.choice === 'moved-back' ? zeroChoice.shiftMm : 0;
}
