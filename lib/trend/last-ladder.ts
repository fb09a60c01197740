import type { LastLadder } from '../growth/expected-ladder';
import { doubtfulPlaces } from '../ladder/cross-examined';
import { placeOf } from '../ladder/taped-line';
import { showDayOfYear } from '../units/calendar-day';
import type { SeriesVisit } from './series-visit';

/** A ladder of a series as the next one's sheet needs it: its line, the body that day, its day in words, its exact girths. */
export function lastLadder({ visit, ladder, placed, body, growing, doubts }: SeriesVisit): LastLadder {
  const sign = ladder.direction === 'up' ? 1 : -1;
  const girthsNm = ladder.rungs.flatMap((rung) => (rung.girth ? [[(sign * rung.distance.nm) / 1e6, rung.girth.nm] as const] : []));
  const doubtfulMm = [...doubtfulPlaces(doubts)].map((place) => placeOf(ladder, place));
  return { placed, body, growing, doubtfulMm, words: showDayOfYear(visit.day), girthsNm };
}
