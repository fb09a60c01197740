import { type FitToday, fitOfNext, fitToday } from '../garments/fit-today';
import { furtherLimbs, type LimbOfSet, onLimb, worseOutlook } from '../garments/limbs-of-set';
import { firstToLeave, measureFits } from '../garments/measure-fit';
import { type OrderBy, orderBy } from '../garments/order-by';
import { type OutgrowDate, outgrowDate } from '../garments/outgrow-date';
import { type OwnTrend, ownTrend } from '../garments/own-trend';
import { type PieceBand, pieceBand, policyOfPiece } from '../garments/piece-band';
import { type PieceReadings, readingsOf } from '../garments/pressure-readings';
import { type RoomToGrow, roomToGrow } from '../garments/room-to-grow';
import { endOfLife } from '../garments/wear';
import { type FabricWear, fabricWear } from '../garments/worn-fit';
import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import type { ReviewedRecord } from '../record/next-visit';
import type { Piece, WornPlace } from '../record/patient-record';
import type { ChangeBetween } from '../trend/limb-change';
import { changedSince, type LimbCourse } from '../trend/limb-course';
import type { LimbSeries } from '../trend/series-visit';
import { type CalendarDay, showDay } from '../units/calendar-day';

/** One piece: how it fits, how long it will, what the next one needs. */
export type AnalysedPiece = {
  readonly piece: Piece;
  readonly inUse: boolean;
  readonly fit: FitToday | NoAnswer;
  /** The band it is judged by, the pressure readings that are of it, and what wear has taken from its fabric. */
  readonly band: PieceBand;
  readonly readings: PieceReadings;
  readonly wear: FabricWear;
  /** The limb's own trend beyond what the body explains, as its dates take it. */
  readonly trend: OwnTrend | undefined;
  /** Of a set of several ladders the limb that ends the fit first, `outgrowOn`; else of the piece's own limb. */
  readonly outgrow: OutgrowDate | NoAnswer;
  readonly outgrowOn: WornPlace;
  /** Every limb of a set of several ladders by itself, the own one first; none where there is one limb, or the piece is out of use. */
  readonly ofSet: readonly LimbOfSet[];
  readonly room: RoomToGrow | NoAnswer;
  readonly endOfLife: CalendarDay | NoAnswer;
  readonly orderBy: OrderBy | NoAnswer;
};

/**
 * One piece on a day: its fit and band, what wear took, its dates, and the room the next one needs.
 *
 * A piece made to named measures alone has no ladder: its fit stands in `measureFits`, its order-by day counts the measure that leaves it first.
 * A garment made to several ladders is judged on each of its limbs; its dates are those of the limb that ends the fit first.
 * Shape: a piece, the limbs and series of its patient, the record, the policy, the changes between visits. A piece out of use, or one that cannot be
 * compared, has its reason in place of dates.
 */
export function analysePiece(
  piece: Piece,
  limbs: readonly { readonly series: LimbSeries; readonly course: LimbCourse }[],
  all: readonly LimbSeries[],
  record: ReviewedRecord,
  policy: Policy,
  today: CalendarDay,
  between: ChangeBetween,
): AnalysedPiece {
  const limb = limbs.find(({ series: { limb, side } }) => limb === piece.limb && side === piece.side);
  const series = limb?.series;
  const fit = fitToday(piece, series, policy, between, (cut) => (limb ? changedSince(limb.course, cut) : 1));
  const readings = readingsOf(piece, record, series, policy, between);
  const band = pieceBand(piece, readings, policy);
  const judged = { piece, fit, band, readings, wear: fabricWear(piece, readings, record, all, policy, between, today) };
  const life = endOfLife(piece);
  const retired = piece.retired !== null && piece.retired <= today;
  const gone: NoAnswer = { noAnswer: `Out of use since ${piece.retired ? showDay(piece.retired) : ''}.` };
  const judgedPolicy = policyOfPiece(policy, band);
  const own: LimbOfSet & { trend: OwnTrend | undefined } = retired
    ? { limb: piece.limb, side: piece.side, fit, trend: undefined, outgrow: gone, room: gone }
    : outlookOn(piece, series, fit, record, policy, judgedPolicy, between, today);
  const others = retired
    ? []
    : furtherLimbs(piece).map((one) => onFurtherLimb(onLimb(piece, one), limbs, record, policy, judgedPolicy, between, today));
  const { trend, ...first } = own;
  const worst = worseOutlook([first, ...others]);
  return {
    ...judged,
    inUse: !retired,
    trend,
    outgrow: worst.outgrow,
    outgrowOn: { limb: worst.limb, side: worst.side },
    ofSet: others.length > 0 ? [first, ...others] : [],
    room: own.room,
    endOfLife: life,
    orderBy: retired ? gone : orderBy(piece, endOfMeasures(piece, record, policy) ?? worst.outgrow, life, policy),
  };
}

/** The early day on which a piece made to named measures alone is left by one of them; undefined for a piece of a ladder, and where none is foreseen. */
function endOfMeasures(piece: Piece, record: ReviewedRecord, policy: Policy): Pick<OutgrowDate, 'earlyDay'> | undefined {
  if (piece.covers !== 'measures') return undefined;
  return firstToLeave(measureFits(piece, record, policy))?.outlook;
}

/** A garment on another limb of its set: fit and outlook as if it lay there alone, by the band of the piece. */
function onFurtherLimb(
  piece: Piece,
  limbs: readonly { readonly series: LimbSeries; readonly course: LimbCourse }[],
  record: ReviewedRecord,
  policy: Policy,
  judgedPolicy: Policy,
  between: ChangeBetween,
  today: CalendarDay,
): LimbOfSet {
  const limb = limbs.find(({ series }) => series.limb === piece.limb && series.side === piece.side);
  const fit = fitToday(piece, limb?.series, policy, between, (cut) => (limb ? changedSince(limb.course, cut) : 1));
  const { trend: _own, ...found } = outlookOn(piece, limb?.series, fit, record, policy, judgedPolicy, between, today);
  return found;
}

function outlookOn(
  { limb, side }: Piece,
  series: LimbSeries | undefined,
  fit: FitToday | NoAnswer,
  record: ReviewedRecord,
  policy: Policy,
  judgedPolicy: Policy,
  between: ChangeBetween,
  today: CalendarDay,
): LimbOfSet & { readonly trend: OwnTrend | undefined } {
  if (isNoAnswer(fit)) return { limb, side, fit, trend: undefined, outgrow: fit, room: fit };
  const trend = series ? ownTrend(series, between) : undefined;
  const outgrow = outgrowDate(fit, record, trend, judgedPolicy);
  return { limb, side, fit, trend, outgrow, room: roomToGrow(series ? fitOfNext(fit, series, policy) : fit, record, trend, policy, today) };
}
