import { type FitToday, fitToday } from '../garments/fit-today';
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
import type { Piece } from '../record/patient-record';
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
  readonly outgrow: OutgrowDate | NoAnswer;
  readonly room: RoomToGrow | NoAnswer;
  readonly endOfLife: CalendarDay | NoAnswer;
  readonly orderBy: OrderBy | NoAnswer;
};

/**
 * One piece on a day: its fit and band, what wear took, its dates, and the room the next one needs.
 *
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
  if (isNoAnswer(fit) || retired) {
    const why = retired ? gone : (fit as NoAnswer);
    return {
      ...judged,
      inUse: !retired,
      trend: undefined,
      outgrow: why,
      room: why,
      endOfLife: life,
      orderBy: retired ? gone : orderBy(piece, why, life, policy),
    };
  }
  const trend: OwnTrend | undefined = series ? ownTrend(series, between) : undefined;
  const outgrow = outgrowDate(fit, record, trend, policyOfPiece(policy, band));
  return {
    ...judged,
    inUse: true,
    trend,
    outgrow,
    room: roomToGrow(fit, record, trend, policy, today),
    endOfLife: life,
    orderBy: orderBy(piece, outgrow, life, policy),
  };
}
