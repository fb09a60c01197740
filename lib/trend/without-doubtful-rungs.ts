import { placeOf } from '../ladder/taped-line';
import type { SeriesVisit } from './series-visit';

/**
 * A visit with its doubtful rungs left out; the same visit when it has none.
 *
 * For asking whether a verdict hangs on a reading that nobody has confirmed; the rungs themselves stay on record.
 */
export function withoutDoubtfulRungs(visit: SeriesVisit): SeriesVisit {
  const doubtful = new Set(visit.doubts.flatMap((doubt) => (doubt.distanceMm === null ? [] : [placeOf(visit.ladder, doubt.distanceMm)])));
  if (doubtful.size === 0) return visit;
  const { placesMm, girthsMm, landmarks } = visit.placed.line;
  const keep = placesMm.map((place) => !doubtful.has(place));
  const line = { placesMm: placesMm.filter((_, rung) => keep[rung]), girthsMm: girthsMm.filter((_, rung) => keep[rung]), landmarks };
  return { ...visit, placed: { ...visit.placed, line } };
}
