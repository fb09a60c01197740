import { anatomicalPlace } from '../growth/anatomical-place';
import type { SeriesVisit } from './series-visit';

/**
 * Anatomical place, 0 to 2, of a place on the ruler of one visit's ladder, by the landmarks placed on it and the height near that day.
 * Example: the knee of a leg → 1.
 */
export function anatomyOf({ ladder, placed, body }: Pick<SeriesVisit, 'ladder' | 'placed' | 'body'>): (placeMm: number) => number {
  return anatomicalPlace(ladder.limb, (landmark) => placed.landmarks.get(landmark)?.placeMm, body.heightMm?.value);
}
