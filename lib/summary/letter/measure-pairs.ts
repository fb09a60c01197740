import type { PatientAnalysis } from '../../analysis/analyse-patient';
import type { Measure } from '../../parts/measure';
import { garmentSet, isOfSet } from '../../record/garment-needs';
import type { NamedMeasure, Piece, Visit } from '../../record/patient-record';
import { REACH_95 } from '../../statistics/reach-95';
import { measureSeries } from '../../trend/measure-series';

/** One named measure at the visit a piece was cut from and at the new one, mm, and half of the 95 % range of the change. */
export type MeasurePair = {
  readonly measure: Measure;
  readonly before: NamedMeasure;
  readonly now: NamedMeasure;
  readonly beforeMm: number;
  readonly nowMm: number;
  readonly errorMm: number;
};

/**
 * Named measures of the parts a piece's garment covers that both visits have and none of which is asked about.
 *
 * Error = 1.96 √(σ₁² + σ₂²), σ the reading error of the catalogue times the clinic's scale. Shape: an analysis, a piece, the visits or null.
 * Source: engine section 11. Example: hand girth 200 then 212 mm, σ 2 mm: +12 mm, ± 5.5.
 */
export function measurePairs(analysis: PatientAnalysis, piece: Piece, cut: Visit | null, newest: Visit | null): MeasurePair[] {
  if (!piece.garment || !cut?.measures || !newest?.measures || cut.day >= newest.day) return [];
  const set = garmentSet(piece.garment, piece);
  return measureSeries(analysis.trusted, analysis.policy).flatMap(({ measure, visits }): MeasurePair[] => {
    const [before, now] = [cut, newest].map((one) => visits.find(({ visit }) => visit.day === one.day));
    if (!before || !now || !isOfSet(set, now.taken) || before.doubts.length > 0 || now.doubts.length > 0) return [];
    const errorMm = REACH_95 * Math.hypot(before.sdMm, now.sdMm);
    return [{ measure, before: before.taken, now: now.taken, beforeMm: before.lengthMm, nowMm: now.lengthMm, errorMm }];
  });
}
