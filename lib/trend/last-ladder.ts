import { fitLevel, levelPoints, residual, zScoreOf } from '../alignment/level-fit';
import { tapedRungs } from '../alignment/reference-line';
import { type LastLadder, lastVisitLine, type UsualLine } from '../growth/expected-ladder';
import { doubtfulPlaces } from '../ladder/cross-examined';
import { DOUBT_LIMITS } from '../ladder/doubt-limits';
import { hasGirthAtJoint } from '../ladder/doubtful-rungs';
import { placeOf } from '../ladder/taped-line';
import type { TapeSds } from '../limits/tape-sds';
import { median } from '../statistics/median';
import { showDayOfYear } from '../units/calendar-day';
import type { SeriesVisit } from './series-visit';

/** Ladders that are looked back over; older ones say little of the limb of today. Clinic default. */
const MOST_LADDERS = 6;

/** A rung that lies so far from where the others lie beside an earlier ladder, as a logarithm, is no part of the fit. Clinic default. */
const SLIP_SHARE = 0.08;

/**
 * The newest ladder of a series as the next one's sheet needs it: its line, the body that day, its day in words, its exact girths, and
 * what it and the ladders before it say of each of its rungs together.
 *
 * Shape: visits of one limb by time, at least one; whether the limb is swollen; the errors of the tape.
 */
export function lastLadder(visits: readonly SeriesVisit[], swollen: boolean, tape: TapeSds): LastLadder | undefined {
  const newest = visits.at(-1);
  if (!newest) return undefined;
  const last = ladderAsTaped(newest);
  return { ...last, usual: usualLine(newest, last, visits.slice(-MOST_LADDERS, -1), swollen, tape) };
}

/** One ladder alone as a reference: what was taped is what is expected. */
export function ladderAsTaped({ visit, ladder, placed, body, growing, doubts }: SeriesVisit): LastLadder {
  const sign = ladder.direction === 'up' ? 1 : -1;
  const girthsNm = ladder.rungs.flatMap((rung) => (rung.girth ? [[(sign * rung.distance.nm) / 1e6, rung.girth.nm] as const] : []));
  const doubtfulMm = [...doubtfulPlaces(doubts)].map((place) => placeOf(ladder, place));
  const { girthsMm } = placed.line;
  const usual = { girthsMm, ladders: girthsMm.map(() => 1) };
  const girthAtJoint = hasGirthAtJoint(ladder);
  return { placed, body, growing, doubtfulMm, words: showDayOfYear(visit.day), girthsNm, girthAtJoint, usual };
}

/**
 * Each girth of the newest ladder as earlier ones have it too: ln g − Σ r / (n + 1).
 *
 * r is how far the rung lies from what an earlier ladder leads one to expect, once level, zero and tilt of the two are fitted: so that
 * growth, weight and swelling stay those of the newest ladder and only its shape is steadied. A rung that an earlier ladder finds odd
 * takes nothing from it. Independent readings of SD s leave s / √(n + 1).
 * Source: mean of independent readings; level fit as for questions. Example: a rung 6 mm too wide beside two ladders that agree: 2 mm.
 */
function usualLine(newest: SeriesVisit, last: LastLadder, earlier: readonly SeriesVisit[], swollen: boolean, tape: TapeSds): UsualLine {
  const rungs = tapedRungs(newest.ladder);
  const placeAt = rungs.map(({ atMm }) => placeOf(newest.ladder, atMm));
  const today = { day: last.placed.day, body: last.body, tape };
  const off = new Map<number, number[]>();
  for (const visit of earlier) {
    const reference = lastVisitLine({ ...ladderAsTaped(visit), doubtfulMm: [] }, newest.ladder, today, swollen);
    if (!reference) continue;
    const points = levelPoints(rungs, reference);
    const middle = median(points.flatMap((point) => (point ? [point.y] : [])));
    const isOdd = (index: number) =>
      last.doubtfulMm.includes(placeAt[index] ?? 0) || Math.abs((points[index]?.y ?? middle) - middle) > SLIP_SHARE;
    const fit = fitLevel(points, reference.spread, isOdd);
    points.forEach((point, index) => {
      if (!point || isOdd(index) || Math.abs(zScoreOf(point, fit)) > DOUBT_LIMITS.slip.value) return;
      const place = placeAt[index] as number;
      off.set(place, [...(off.get(place) ?? []), residual(point, fit)]);
    });
  }
  const { placesMm, girthsMm } = last.placed.line;
  const found = placesMm.map((place) => off.get(place) ?? []);
  return {
    girthsMm: girthsMm.map((girth, index) => girth * Math.exp(-sum(found[index] ?? []) / ((found[index]?.length ?? 0) + 1))),
    ladders: found.map((of) => of.length + 1),
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
