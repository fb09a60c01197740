import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import type { PatientRecord, Piece } from '../record/patient-record';
import { anatomyOf } from '../trend/anatomy-of';
import type { SeriesVisit } from '../trend/series-visit';
import { addDays, type CalendarDay, daysBetween } from '../units/calendar-day';
import { type BodyOutlook, bodyOutlook, girthAhead } from './body-outlook';
import type { FitToday } from './fit-today';
import type { OwnTrend } from './own-trend';
import { relaxedGirth } from './relaxed-girth';
import { relativeTightness } from './tightness';

/** Let-out width for one place of the next piece, mm, rounded up to the tape step, and what tightness does there. */
export type PlaceRoom = {
  /** On the ruler of the newest ladder. */
  readonly placeMm: number;
  readonly heightMm: number;
  readonly middleMm: number;
  readonly highMm: number;
  /** Tightness if the room stays stitched away, at delivery and at the end of life, against the ladder it will be cut from. */
  readonly tightnessAtDelivery: number;
  readonly tightnessAtEnd: number;
};

/** The expansion allowance proposed for the next piece. */
export type RoomToGrow = {
  readonly delivery: CalendarDay;
  readonly endOfLife: CalendarDay;
  readonly places: readonly PlaceRoom[];
  /** Largest over the places, mm. */
  readonly middleMm: number;
  readonly highMm: number;
};

/** One-sided 90 % point of the normal distribution. */
const NINETY = 1.2816;
/** Tape steps: 1/8 in and 0.1 cm. Common practice. */
export const STEP_MM = { in: 3.175, cm: 1 } as const;

/**
 * Room for growth in the next piece: the relaxed width that holds the strain from delivery to the end of its life, ΔG = G (e − 1).
 *
 * e is the girth ratio expected between the two days, G the relaxed girth of a piece cut from the newest ladder; at the middle and at the
 * 90 % estimate, never below 0, rounded up to the tape step. Delivery: the later of today and the newest ladder, plus the lead time.
 * Shape: the piece as the next one is cut (`fitOfNext`), record, trend, policy, today; places of the newest ladder. Refuses by name what `bodyOutlook` refuses.
 * Source: strain algebra ΔG = g·G (common practice of let-outs); engine section 8.
 * Example: G 170 mm and 5 % of growth expected: 8.5 mm, rounded up to 9 mm.
 */
export function roomToGrow(
  fit: FitToday,
  record: PatientRecord,
  trend: OwnTrend | undefined,
  policy: Policy,
  today: CalendarDay,
): RoomToGrow | NoAnswer {
  const { latest, piece } = fit;
  const from = today > latest.visit.day ? today : latest.visit.day;
  const delivery = addDays(from, piece.leadDays);
  const endOfLife = addDays(delivery, piece.lifeDays);
  const atDelivery = bodyOutlook(record, latest, daysBetween(latest.visit.day, delivery), policy);
  if (isNoAnswer(atDelivery)) return atDelivery;
  const atEnd = bodyOutlook(record, latest, daysBetween(latest.visit.day, endOfLife), policy);
  if (isNoAnswer(atEnd)) return atEnd;
  const places = placesOf(fit, latest, piece, atDelivery, atEnd, trend);
  const middleMm = Math.max(0, ...places.map((place) => place.middleMm));
  const highMm = Math.max(0, ...places.map((place) => place.highMm));
  return { delivery, endOfLife, places, middleMm, highMm };
}

function placesOf(
  fit: FitToday,
  latest: SeriesVisit,
  piece: Piece,
  atDelivery: BodyOutlook,
  atEnd: BodyOutlook,
  trend: OwnTrend | undefined,
): PlaceRoom[] {
  const { cut } = fit;
  const anatomy = anatomyOf(cut.visit);
  const step = STEP_MM[latest.ladder.unit];
  return fit.places.map(({ placeMm, heightMm, girthNowMm }) => {
    const place = anatomy(placeMm);
    const delivered = girthAhead(latest, atDelivery, place, trend);
    const ended = girthAhead(latest, atEnd, place, trend);
    const relaxedMm = relaxedGirth(girthNowMm, piece.reductionPct, piece.convention);
    const growth = ended.ratio / delivered.ratio;
    const spread = Math.sqrt(Math.max(ended.sd ** 2 - delivered.sd ** 2, 0));
    return {
      placeMm,
      heightMm,
      middleMm: roundedUp(relaxedMm * (growth - 1), step),
      highMm: roundedUp(relaxedMm * (growth * Math.exp(NINETY * spread) - 1), step),
      tightnessAtDelivery: relativeTightness(relaxedMm, girthNowMm * delivered.ratio, girthNowMm),
      tightnessAtEnd: relativeTightness(relaxedMm, girthNowMm * ended.ratio, girthNowMm),
    };
  });
}

function roundedUp(widthMm: number, stepMm: number): number {
  return Math.max(0, Math.ceil(widthMm / stepMm - 1e-9)) * stepMm;
}
