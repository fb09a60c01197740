import { type Alignment, alignLadders, toEarlier } from '../alignment/align-ladders';
import { type PlacedLine, placeLandmarks } from '../alignment/place-landmarks';
import type { ReferenceLine } from '../alignment/reference-line';
import { SPREAD } from '../ladder/doubt-limits';
import { girthAt } from '../ladder/girth-at';
import type { Ladder } from '../ladder/ladder';
import type { LimbKind } from '../ladder/limb';
import { placeOf, tapedLine } from '../ladder/taped-line';
import type { TapeSds } from '../limits/tape-sds';
import { anatomicalPlace } from './anatomical-place';
import type { BodyAt } from './body-at';
import { bodyChange, expectedGirthAt } from './body-change';

/** The last ladder of one limb as the sheet needs it: its line with landmarks placed, the body that day, and its day in words. */
export type LastLadder = {
  readonly placed: PlacedLine;
  readonly body: BodyAt;
  readonly growing: boolean;
  readonly words: string;
  /** Places of rungs that stand in doubt, unanswered, on the same ruler as `placed`, mm: shown as they were, expected from never. */
  readonly doubtfulMm: readonly number[];
  /** What all ladders up to this one say of its girths, rung by rung of `placed`; as taped where there is no other. */
  readonly usual: UsualLine;
  /** Exact girths by distance from the zero, upward positive (mm), to tell a copy of what was typed. */
  readonly girthsNm: readonly (readonly [placeMm: number, girthNm: number])[];
  /** Whether a girth was taken at the ankle crease then. */
  readonly girthAtJoint: boolean;
};

/** Girths of a ladder, mm, as it and earlier ones of the same limb have them, and how many ladders stand behind each. */
export type UsualLine = { readonly girthsMm: readonly number[]; readonly ladders: readonly number[] };

/** What is known of the day of taping: its number, the body as typed so far, the errors of the clinic's tape. */
export type TapingDay = {
  readonly day: number;
  readonly body: BodyAt;
  readonly tape: TapeSds;
};

/**
 * What the last visit leads one to expect along the ladder being taped, on the same anatomy: last girth × what weight and height explain.
 *
 * Landmarks typed so far align the two; a landmark not typed yet is inferred from last time. Undefined when nothing is shared.
 * Shape: the last ladder, the ladder as typed so far; girths in mm by distance from the new zero, mm.
 * Source: engine sections 4 and 5. Example: a child grown from 1,300 to 1,350 mm: last time's rung at 280 mm is looked for at 293 mm.
 */
export function lastVisitLine(last: LastLadder, ladder: Ladder, today: TapingDay, swollen: boolean): ReferenceLine | undefined {
  const { limb } = ladder;
  const body = bodyChange(last.body, today.body, limb, last.growing, today.day - last.placed.day);
  const now = placedNow(last, ladder, today, limb);
  const alignment = alignLadders(last.placed, now, limb, body.expectedLength);
  if (!alignment) return undefined;
  const { placesMm, girthsMm } = last.placed.line;
  const place = anatomicalPlace(limb, (landmark) => last.placed.landmarks.get(landmark)?.placeMm, last.body.heightMm?.value);
  const trusted = withoutDoubtful(last);
  const thenAt = (distanceMm: number) => toEarlier(alignment, placeOf(ladder, distanceMm));
  const shownMm = (distanceMm: number) => girthAt(placesMm, girthsMm, withinHair(placesMm, thenAt(distanceMm)));
  return {
    kind: 'last-visit',
    words: `on ${last.words} this place was`,
    shownMm,
    expectedMm: (distanceMm) => {
      const then = thenAt(distanceMm);
      const girth = girthAt(trusted.placesMm, trusted.girthsMm, then) ?? carriedOn(trusted.placesMm, trusted.girthsMm, then);
      return girth === undefined ? undefined : girth * expectedGirthAt(body, limb, last.growing, place(then));
    },
    ladders: (distanceMm) => girthAt(trusted.placesMm, trusted.ladders, thenAt(distanceMm)) ?? 1,
    readingMm: today.tape.readingMm,
    spread: { ...(swollen ? SPREAD.lastSwollen : SPREAD.last), zeroMm: zeroSd(alignment) },
  };
}

/** The usual line at the places of the last ladder, without rungs that were left in doubt; with them where fewer than two others are left. */
function withoutDoubtful({ placed, usual, doubtfulMm }: LastLadder): UsualLine & { readonly placesMm: readonly number[] } {
  const { placesMm } = placed.line;
  const isTrusted = (_: number, index: number) => !doubtfulMm.includes(placesMm[index] ?? 0);
  const trusted = placesMm.filter(isTrusted);
  if (trusted.length === placesMm.length || trusted.length < 2) return { placesMm, ...usual };
  return { placesMm: trusted, girthsMm: usual.girthsMm.filter(isTrusted), ladders: usual.ladders.filter(isTrusted) };
}

/** How well the two zeros are known to agree, mm: SD of the aligned landmarks, never taken for better than 4 mm. */
function zeroSd({ covariance }: Alignment): number {
  const variances = covariance.map((row, knot) => row[knot] ?? 0);
  return Math.max(Math.sqrt(variances.reduce((sum, variance) => sum + variance, 0) / variances.length), 4);
}

/** What the other limb, taped today from the same zero in the same direction, leads one to expect. */
export function otherLimbLine(other: Ladder, ladder: Ladder, { readingMm }: TapeSds, swollen: boolean): ReferenceLine | undefined {
  if (other.zero !== ladder.zero || other.direction !== ladder.direction) return undefined;
  const { placesMm, girthsMm } = tapedLine(other);
  const girth = (distanceMm: number) => girthAt(placesMm, girthsMm, placeOf(ladder, distanceMm));
  const words = `the ${other.side} ${other.limb} is`;
  return {
    kind: 'other-limb',
    words,
    shownMm: girth,
    expectedMm: girth,
    ladders: () => 1,
    readingMm,
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
  return placeLandmarks([then, now], limb, last.growing, today.tape.placementMm)[1] as PlacedLine;
}

/** How far past the outer rungs an expectation, never a figure that is shown, may be carried on along the outer slope, mm. */
const CARRIED_ON_MM = 60;

function carriedOn(placesMm: readonly number[], girthsMm: readonly number[], placeMm: number): number | undefined {
  const last = placesMm.length - 1;
  const below = placeMm < (placesMm[0] ?? 0);
  const [outer, inner] = below ? [0, 1] : [last, last - 1];
  const [from, next, girth, nextGirth] = [placesMm[outer], placesMm[inner], girthsMm[outer], girthsMm[inner]];
  if (from === undefined || next === undefined || girth === undefined || nextGirth === undefined) return undefined;
  if (Math.abs(placeMm - from) > CARRIED_ON_MM) return undefined;
  return girth + ((girth - nextGirth) / (from - next)) * (placeMm - from);
}

/** A place that misses an outer rung by less than 8 mm is read at that rung: a zero is not put down more exactly than that. */
function withinHair(placesMm: readonly number[], placeMm: number): number {
  const first = placesMm[0] ?? placeMm;
  const last = placesMm.at(-1) ?? placeMm;
  if (placeMm < first && first - placeMm < 8) return first;
  return placeMm > last && placeMm - last < 8 ? last : placeMm;
}
