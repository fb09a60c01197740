import { alignLadders, toEarlier } from '../alignment/align-ladders';
import { type PlacedLine, placeLandmarks } from '../alignment/place-landmarks';
import type { ReferenceLine } from '../alignment/reference-line';
import { SPREAD } from '../ladder/doubt-limits';
import { girthAt } from '../ladder/girth-at';
import type { Ladder } from '../ladder/ladder';
import type { LimbKind } from '../ladder/limb';
import { tapedLine } from '../ladder/taped-line';
import { anatomicalPlace } from './anatomical-place';
import type { BodyAt } from './body-at';
import { bodyChange, expectedGirthAt } from './body-change';

/** The last ladder of one limb as the sheet needs it: its line with landmarks placed, the body that day, and its day in words. */
export type LastLadder = {
  readonly placed: PlacedLine;
  readonly body: BodyAt;
  readonly growing: boolean;
  readonly words: string;
  /** Exact girths by place on the upward ruler (mm), to tell a copy. */
  readonly girthsNm: readonly (readonly [placeMm: number, girthNm: number])[];
};

/** What is known of the day of taping: its number and the body as typed so far. */
export type TapingDay = {
  readonly day: number;
  readonly body: BodyAt;
  readonly placementMm: number;
};

/**
 * What the last visit leads one to expect along the ladder being taped, on the same anatomy: last girth × what weight and height explain.
 *
 * Landmarks typed so far align the two; a landmark not typed yet is inferred from last time. Undefined when nothing is shared.
 * Shape: the last ladder, the ladder as typed so far; girths in mm by distance from the new zero, mm.
 * Source: engine sections 4 and 5. Example: a child grown from 1,300 to 1,350 mm: last time's rung at 280 mm is looked for at 293 mm.
 */
export function lastVisitLine(last: LastLadder, ladder: Ladder, today: TapingDay, swollen: boolean): ReferenceLine | undefined {
  const { limb, direction } = ladder;
  const body = bodyChange(last.body, today.body, limb, last.growing, today.day - last.placed.day);
  const now = placedNow(last, ladder, today, limb);
  const alignment = alignLadders(last.placed, now, limb, body.expectedLength);
  if (!alignment) return undefined;
  const sign = direction === 'up' ? 1 : -1;
  const { placesMm, girthsMm } = last.placed.line;
  const place = anatomicalPlace(limb, (landmark) => last.placed.landmarks.get(landmark)?.placeMm, last.body.heightMm?.value);
  const thenAt = (distanceMm: number) => toEarlier(alignment, sign * distanceMm);
  const shownMm = (distanceMm: number) => girthAt(placesMm, girthsMm, withinHair(placesMm, thenAt(distanceMm)));
  return {
    kind: 'last-visit',
    words: `on ${last.words} this place was`,
    shownMm,
    expectedMm: (distanceMm) => {
      const girth = shownMm(distanceMm);
      return girth === undefined ? undefined : girth * expectedGirthAt(body, limb, last.growing, place(thenAt(distanceMm)));
    },
    spread: swollen ? SPREAD.lastSwollen : SPREAD.last,
  };
}

/** What the other limb, taped today from the same zero in the same direction, leads one to expect. */
export function otherLimbLine(other: Ladder, ladder: Ladder, swollen: boolean): ReferenceLine | undefined {
  if (other.zero !== ladder.zero || other.direction !== ladder.direction) return undefined;
  const { placesMm, girthsMm } = tapedLine(other);
  const sign = ladder.direction === 'up' ? 1 : -1;
  const girth = (distanceMm: number) => girthAt(placesMm, girthsMm, sign * distanceMm);
  const words = `the ${other.side} ${other.limb} is`;
  return {
    kind: 'other-limb',
    words,
    shownMm: girth,
    expectedMm: girth,
    spread: swollen ? SPREAD.otherSwollen : SPREAD.other,
  };
}

function placedNow(last: LastLadder, ladder: Ladder, today: TapingDay, limb: LimbKind): PlacedLine {
  const then = {
    day: last.placed.day,
    line: last.placed.line,
    bodyHeightMm: last.body.heightMm?.value,
  };
  const now = {
    day: today.day,
    line: tapedLine(ladder),
    bodyHeightMm: today.body.heightMm?.value,
  };
  return placeLandmarks([then, now], limb, last.growing, today.placementMm)[1] as PlacedLine;
}

/** A place that misses an outer rung by less than 8 mm is read at that rung: a zero is not put down more exactly than that. */
function withinHair(placesMm: readonly number[], placeMm: number): number {
  const first = placesMm[0] ?? placeMm;
  const last = placesMm.at(-1) ?? placeMm;
  if (placeMm < first && first - placeMm < 8) return first;
  return placeMm > last && placeMm - last < 8 ? last : placeMm;
}
