import type { Visit } from '../record/patient-record';

/**
 * What makes two visits the same one: day, clock time, and every figure that was taped, whatever words stand beside them.
 *
 * Two visits with the same key hold the same figures to the nanometre; bringing one in beside the other would add nothing.
 */
export function figuresKey(visit: Visit): string {
  const ladders = visit.ladders
    .map(({ limb, side, zero, direction, rungs, landmarks }) => ({
      limb,
      side,
      zero,
      direction,
      rungs: rungs.flatMap(({ distance, girth }) => (girth ? [[distance.nm, girth.nm]] : [])),
      landmarks: landmarks.map(({ landmark, distance }) => [landmark, distance.nm]).sort(),
    }))
    .map((ladder) => JSON.stringify(ladder))
    .sort();
  return JSON.stringify([visit.day, visit.time, visit.height?.nm ?? null, visit.weight?.ng ?? null, ladders]);
}

/** Two visits that could be one: of the same day, at the same clock time or one of them without. */
export function couldBeOne(one: Visit, other: Visit): boolean {
  return one.day === other.day && (one.time === other.time || one.time === null || other.time === null);
}
