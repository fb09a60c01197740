import { usualShareUp } from '../growth/anatomical-place';
import { LIMBS } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { GARMENT_PRESSURE } from '../observations/kinds/garment-pressure';
import { isNoAnswer } from '../outcome';
import type { PatientRecord, Piece } from '../record/patient-record';
import { anatomyOf } from '../trend/anatomy-of';
import type { ChangeBetween } from '../trend/limb-change';
import type { LimbSeries, SeriesVisit } from '../trend/series-visit';
import { type CalendarDay, showDay } from '../units/calendar-day';
import { type FitToday, fitToday, type PlaceFit } from './fit-today';
import type { ReadingPair } from './tension-loss';
import { inUse, wearDays } from './wear';

/** A pressure reading that is of a piece: how long it had been worn then, how tight it sat there as cut, and where. */
export type PieceReading = {
  readonly day: CalendarDay;
  readonly mmHg: number;
  readonly posture: string;
  /** How far up the limb it was read, 0 at the far landmark. */
  readonly along: number;
  /** How far up the piece: 0 at its far end, 1 at its near one. */
  readonly alongPiece: number;
  readonly wornDays: number;
  /** Tightness as cut at that site by the ladder of that day or the last before it. */
  readonly asCut: number;
};

/** Readings that belong to a piece, and why others of its limb do not. */
export type PieceReadings = { readonly of: readonly PieceReading[]; readonly leftOut: readonly string[] };

/** Sites this near each other are one site, as a share of the limb: the step of the form. Clinic default. */
const SAME_SITE = 0.05;

/** Whether two pieces are one make: cut from one ladder to one figure over one stretch. Example: two pieces of one order → true. */
export function sameMake(one: Piece, other: Piece): boolean {
  return makeOf(one) === makeOf(other);
}

function makeOf({ limb, side, cutFrom, cutFromVisitId, covers, reductionPct, convention, garment }: Piece): string {
  return JSON.stringify([limb, side, cutFromVisitId ?? cutFrom, covers, reductionPct, convention, garment?.form ?? null]);
}

/**
 * The pressure readings of a piece among what was looked at: of its limb, on a day it was worn, at a site that it covers.
 *
 * A reading says no piece. It is taken for the make that was in use on that limb on that day over that site; where two makes were, for none.
 * Shape: a piece, the record, the limb's series and its changes, the policy. Cost: one fit a reading. Refused readings are named with the reason.
 */
export function readingsOf(
  piece: Piece,
  record: PatientRecord,
  series: LimbSeries | undefined,
  policy: Policy,
  between: ChangeBetween,
): PieceReadings {
  const of: PieceReading[] = [];
  const leftOut: string[] = [];
  if (!series) return { of, leftOut };
  for (const { kind, day, figures, choice, place } of record.observations ?? []) {
    const mmHg = figures.mmHg;
    if (kind !== GARMENT_PRESSURE.id || mmHg === undefined || !choice || place?.limb !== piece.limb || place.side !== piece.side) continue;
    const worn = (one: Piece) =>
      one.limb === piece.limb && one.side === piece.side && one.firstWorn !== null && one.firstWorn <= day && inUse(one, day);
    if (!worn(piece)) continue;
    const said = `${mmHg}\u202fmmHg, ${showDay(day)}`;
    if (record.pieces.some((one) => worn(one) && one.covers !== 'measures' && !sameMake(one, piece))) {
      leftOut.push(`${said}: two makes were in use on this limb, so it is not known which one it is of.`);
      continue;
    }
    const then = { ...series, visits: series.visits.filter(({ visit }) => visit.day <= day) };
    const fit = fitToday(piece, then, policy, between);
    if (isNoAnswer(fit)) continue;
    const at = nearestPlace(fit, place.along);
    const days = wearDays(piece, record.pieces, day);
    if (!at || isNoAnswer(days)) {
      leftOut.push(`${said}: read where the piece is not.`);
      continue;
    }
    const share = shareUp(fit.cut.visit);
    const [from, to] = [share(fit.cut.fromMm), share(fit.cut.toMm)];
    const alongPiece = (place.along - from) / (to - from || 1);
    of.push({ day, mmHg, posture: choice, along: place.along, alongPiece, wornDays: days, asCut: at.tightness });
  }
  return { of: of.sort((one, other) => one.day.localeCompare(other.day)), leftOut };
}

/**
 * The place of a piece at a site of the limb; undefined where it covers none so near.
 * Example: rungs every 4 cm and a site between two → the nearer of them.
 */
export function nearestPlace({ places, cut }: FitToday, along: number): PlaceFit | undefined {
  const share = shareUp(cut.visit);
  const near = places.map((place) => ({ place, off: Math.abs(share(place.placeMm) - along) })).sort((one, other) => one.off - other.off)[0];
  return near && near.off <= SAME_SITE + 1e-9 ? near.place : undefined;
}

/** How far up the limb a place of a ladder lies: by both landmarks where they are on it, else by usual lengths. */
function shareUp(visit: SeriesVisit): (placeMm: number) => number {
  const { limb } = visit.ladder;
  const [far, , near] = LIMBS[limb].landmarks;
  const [farMm, nearMm] = [visit.placed.landmarks.get(far)?.placeMm, visit.placed.landmarks.get(near)?.placeMm];
  if (farMm !== undefined && nearMm !== undefined && nearMm > farMm) return (placeMm) => (placeMm - farMm) / (nearMm - farMm);
  const anatomy = anatomyOf(visit);
  return (placeMm) => usualShareUp(limb, anatomy(placeMm));
}

/**
 * Pairs of readings that say how the fabric wears: each later reading of a site and posture with the first one of it, never across sites or postures.
 *
 * ln(P₁/P₀) − ln(τ₁/τ₀), τ the tightness as cut at each day; variance (s/P₀)² + (s/P₁)², s the error of a sensor. Where several later ones
 * share a first one the last is taken, so that no reading counts twice.
 * Example: 15.3 mmHg at day 0 and 9.9 at day 90, girth unchanged: ln ratio −0.435.
 */
export function readingPairs({ of }: PieceReadings, policy: Policy): ReadingPair[] {
  const pairs: ReadingPair[] = [];
  const seen = new Set<PieceReading>();
  for (const first of of) {
    if (seen.has(first)) continue;
    const alike = of.filter((one) => one.posture === first.posture && Math.abs(one.along - first.along) < SAME_SITE / 2);
    for (const one of alike) seen.add(one);
    const last = alike.at(-1) as PieceReading;
    if (last === first || !(last.wornDays > first.wornDays) || !(first.asCut > 0) || !(last.asCut > 0)) continue;
    pairs.push({
      fromDays: first.wornDays,
      toDays: last.wornDays,
      lnRatio: Math.log(last.mmHg / first.mmHg) - Math.log(last.asCut / first.asCut),
      variance: (policy.pressureSdMmHg / first.mmHg) ** 2 + (policy.pressureSdMmHg / last.mmHg) ** 2,
    });
  }
  return pairs;
}
