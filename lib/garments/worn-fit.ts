import type { Policy } from '../limits/policy';
import { isNoAnswer } from '../outcome';
import type { ReviewedRecord } from '../record/next-visit';
import type { Piece } from '../record/patient-record';
import { REACH_95 } from '../statistics/reach-95';
import type { ChangeBetween } from '../trend/limb-change';
import type { LimbSeries } from '../trend/series-visit';
import type { CalendarDay } from '../units/calendar-day';
import type { FitToday } from './fit-today';
import { nearestPlace, type PieceReadings, readingPairs, readingsOf, sameMake } from './pressure-readings';
import { fabricOf, narrowedLoss, publishedLoss, type TensionLoss, tensionLeft } from './tension-loss';
import { wearDays } from './wear';

/** What wear has taken from a piece by a day: shares of fitted tension left, 95 %. */
export type FabricWear = {
  readonly wornDays: number;
  readonly loss: TensionLoss;
  readonly left: { readonly least: number; readonly middle: number; readonly most: number };
};

/** Tightness as worn at a place: the middle and 95 % of tape, strain and fabric together. */
export type WornPlace = { readonly heightMm: number; readonly low: number; readonly middle: number; readonly high: number };

/** A pressure to expect today at a site and posture that were read, mmHg, 95 %: an estimate. */
export type PressureEstimate = {
  readonly read: { readonly mmHg: number; readonly day: CalendarDay; readonly posture: string; readonly along: number };
  readonly low: number;
  readonly middle: number;
  readonly high: number;
};

/**
 * What wear has taken from a piece: the published loss of its fabric over its worn days, narrowed by pressure readings of its make.
 *
 * Readings of pieces of the same form on the same patient count with twice the variance, since pieces differ. Before first wear nothing is lost.
 * Shape: a piece with its readings, the record, its series, the policy and a day.
 */
export function fabricWear(
  piece: Piece,
  own: PieceReadings,
  record: ReviewedRecord,
  allSeries: readonly LimbSeries[],
  policy: Policy,
  between: ChangeBetween,
  today: CalendarDay,
): FabricWear {
  const worn = wearDays(piece, record.pieces, today);
  const form = piece.garment?.form;
  const makes = record.pieces.filter(
    (one, index, all) =>
      form && one.garment?.form === form && !sameMake(one, piece) && all.findIndex((other) => sameMake(other, one)) === index,
  );
  const others = makes.flatMap((one) => {
    const series = allSeries.find(({ limb, side }) => limb === one.limb && side === one.side);
    return readingPairs(readingsOf(one, record, series, policy, between), policy).map((pair) => ({ ...pair, variance: 2 * pair.variance }));
  });
  const loss = narrowedLoss(publishedLoss(fabricOf(record), policy), [...readingPairs(own, policy), ...others]);
  const wornDays = isNoAnswer(worn) ? 0 : worn;
  return {
    wornDays,
    loss,
    left: {
      least: tensionLeft(loss, wornDays, REACH_95),
      middle: tensionLeft(loss, wornDays),
      most: tensionLeft(loss, wornDays, -REACH_95),
    },
  };
}

/**
 * Tightness as worn by place: as cut × share of tension left, ln SD = √((sd/τ)² + σ²), σ that of the fabric's share.
 *
 * Shape: a fit and the wear of its fabric; 0 where the limb no longer fills the piece.
 * Example: scar garment, 90 worn days, τ 1.30 with SD 0.06: 0.85, 95 % 0.64–1.13.
 */
export function wornPlaces(fit: FitToday, { left }: FabricWear): WornPlace[] {
  const fabricSd = Math.log(left.most / left.least) / (2 * REACH_95);
  return fit.places.map(({ heightMm, tightness, sd }) => {
    const middle = tightness * left.middle;
    const reach = tightness > 0 ? REACH_95 * Math.hypot(sd / tightness, fabricSd) : 0;
    return { heightMm, low: middle * Math.exp(-reach), middle, high: middle * Math.exp(reach) };
  });
}

/**
 * The pressure to expect today where one was read, by the last reading of each site and posture: P × τ now / τ then × tension left since.
 *
 * Shape: the fit of today, readings, wear; mmHg as an estimate, none without a reading. ln SD from the sensor (2.5 mmHg), and the loss since.
 * Example: 18 mmHg read at 20 worn days, girth unchanged, scar garment at 90: 18 × 0.65 / 0.82 = 14.4 mmHg.
 */
export function pressureEstimates(fit: FitToday, { of }: PieceReadings, wear: FabricWear, policy: Policy): PressureEstimate[] {
  const last = new Map(of.map((one) => [`${one.posture} ${one.along}`, one]));
  return [...last.values()].flatMap((read) => {
    const place = nearestPlace(fit, read.along);
    if (!place || !(read.asCut > 0)) return [];
    const since = (sds: number) => tensionLeft(wear.loss, wear.wornDays, sds) / tensionLeft(wear.loss, read.wornDays, sds);
    const middle = (read.mmHg * place.tightness * since(0)) / read.asCut;
    const lossSd = Math.abs(Math.log(since(1) / since(-1))) / 2;
    const reach = REACH_95 * Math.hypot(policy.pressureSdMmHg / read.mmHg, lossSd);
    return [{ read, low: middle * Math.exp(-reach), middle, high: middle * Math.exp(reach) }];
  });
}

/**
 * On which side of its band a tightness as cut lies once wear is counted; undefined within it.
 *
 * Tighter by the middle of what wear has taken, looser only where even the least loss leaves it below: a piece that presses too hard is the one that
 * harms, and one that wear alone has loosened is what its replacement date is for. Shape: tightness as cut, the wear of its fabric, the band.
 * Example: 1.33 as cut after 36 worn days of flat knit (0.93 left) is 1.24, within a band to 1.25.
 */
export function sideOfBand(
  asCut: number,
  { left }: FabricWear,
  band: { readonly low: number; readonly high: number },
): 'tighter' | 'looser' | undefined {
  if (asCut * left.middle > band.high) return 'tighter';
  return asCut * left.most < band.low ? 'looser' : undefined;
}
