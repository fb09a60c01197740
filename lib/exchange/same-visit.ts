import type { Visit } from '../record/patient-record';
import { readClockTime } from './clock-time';

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
  const measures = (visit.measures ?? []).map(({ side, measure, length }) => JSON.stringify([side, measure, length.nm])).sort();
  const figures = [visit.day, clockOf(visit), visit.height?.nm ?? null, visit.weight?.ng ?? null, ladders];
  return JSON.stringify(measures.length > 0 ? [...figures, measures] : figures);
}

/** Two visits that could be one: of the same day, at the same clock time or one of them without. */
export function couldBeOne(one: Visit, other: Visit): boolean {
  return one.day === other.day && (clockOf(one) === clockOf(other) || one.time === null || other.time === null);
}

/** The hour of a visit as it is meant: `9:20` and `09:20` are one. */
function clockOf({ time }: Visit): string | null {
  const read = time === null ? undefined : readClockTime(time);
  return read?.kind === 'read' ? read.value : time;
}
