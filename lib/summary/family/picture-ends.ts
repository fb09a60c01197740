import { distalLandmark } from '../../ladder/limb';
import { heightOnLimb } from '../../trend/limb-series';
import type { SeriesVisit } from '../../trend/series-visit';
import type { PictureEnd, PictureEnds } from './family-page';

/** An end this near to a landmark is called by its name alone, mm. Clinic default: half a rung of most ladders. */
const NEAR_MM = 20;

/**
 * Where the drawn limb begins and ends, each by the nearest landmark that was taped or inferred; null where there is none.
 *
 * The drawing stands on the distal landmark, or on the lowest rung where that lies below it or the landmark is not known.
 * Shape: one ladder of a series. Example: rungs from 0 to 44 cm above the ankle crease, fold at 43: from the ankle to the fold.
 */
export function pictureEnds(at: SeriesVisit): PictureEnds | null {
  const heights = at.placed.line.placesMm.map((place) => heightOnLimb(at, place));
  const marks = [...at.placed.landmarks].map(([landmark, { placeMm }]) => ({ landmark, heightMm: heightOnLimb(at, placeMm) }));
  const known = at.placed.landmarks.has(distalLandmark(at.ladder.limb));
  const end = (heightMm: number): PictureEnd | null => {
    const [nearest] = [...marks].sort((one, other) => Math.abs(one.heightMm - heightMm) - Math.abs(other.heightMm - heightMm));
    if (!nearest) return null;
    const aboveMm = heightMm - nearest.heightMm;
    return { landmark: nearest.landmark, aboveMm: Math.abs(aboveMm) <= NEAR_MM ? 0 : aboveMm };
  };
  const from = end(known ? Math.min(0, ...heights) : Math.min(...heights));
  const to = end(Math.max(...heights));
  return from && to && heights.length > 0 ? { from, to } : null;
}
