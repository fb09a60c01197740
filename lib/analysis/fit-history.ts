import { fitToday } from '../garments/fit-today';
import { fabricWear } from '../garments/worn-fit';
import { isNoAnswer } from '../outcome';
import { rememberedChanges } from '../trend/remembered-changes';
import type { CalendarDay } from '../units/calendar-day';
import type { PatientAnalysis } from './analyse-patient';
import type { AnalysedPiece } from './analyse-piece';

/** How a piece sat by one ladder: tightest and loosest place as cut, and the tightest as worn by that day. */
export type FitThen = {
  readonly day: CalendarDay;
  readonly least: number;
  readonly most: number;
  readonly mostWorn: number;
  readonly wornDays: number;
};

/**
 * How a piece sat at each visit since it was cut, by what is known today of its fabric, the newest last.
 *
 * Room that was let out counts at every visit, as the piece is now. Shape: an analysis and one of its pieces. Cost: one fit a visit. Visits
 * that cannot be compared with the cut are left out.
 */
export function fitHistory(analysis: PatientAnalysis, one: AnalysedPiece): FitThen[] {
  const { policy, record, limbs } = analysis;
  const { piece } = one;
  const all = limbs.map(({ series }) => series);
  const series = all.find(({ limb, side }) => limb === piece.limb && side === piece.side);
  const between = rememberedChanges(policy);
  return (series?.visits ?? []).flatMap(({ visit }, index) => {
    if (!series || visit.day < piece.cutFrom) return [];
    const fit = fitToday(piece, { ...series, visits: series.visits.slice(0, index + 1) }, policy, between);
    if (isNoAnswer(fit)) return [];
    const tightness = fit.places.map((place) => place.tightness);
    const { left, wornDays } = fabricWear(piece, one.readings, record, all, policy, between, visit.day);
    const most = Math.max(...tightness);
    return [{ day: visit.day, least: Math.min(...tightness), most, mostWorn: most * left.middle, wornDays }];
  });
}
