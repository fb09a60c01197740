import { placeOf } from '../ladder/taped-line';
import type { SeriesVisit } from '../trend/limb-series';

/**
 * Two visits with their doubtful rungs left out, or undefined when neither has any.
 *
 * For asking whether a verdict hangs on a reading that nobody has confirmed; the rungs themselves stay on record.
 */
export function withoutDoubtfulRungs(earlier: SeriesVisit, later: SeriesVisit): { earlier: SeriesVisit; later: SeriesVisit } | undefined {
  if (!hasDoubtfulRung(earlier) && !hasDoubtfulRung(later)) return undefined;
  return { earlier: dropped(earlier), later: dropped(later) };
}

function hasDoubtfulRung(visit: SeriesVisit): boolean {
  return visit.doubts.some((doubt) => doubt.distanceMm !== null);
}

function dropped(visit: SeriesVisit): SeriesVisit {
  const doubtful = new Set(visit.doubts.flatMap((doubt) => (doubt.distanceMm === null ? [] : [placeOf(visit.ladder, doubt.distanceMm)])));
  const { placesMm, girthsMm, landmarks } = visit.placed.line;
  const keep = placesMm.map((place) => !doubtful.has(place));
  const line = { placesMm: placesMm.filter((_, rung) => keep[rung]), girthsMm: girthsMm.filter((_, rung) => keep[rung]), landmarks };
  return { ...visit, placed: { ...visit.placed, line } };
}
