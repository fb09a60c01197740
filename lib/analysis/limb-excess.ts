import { distalLandmark } from '../ladder/limb';
import { isNoAnswer } from '../outcome';
import type { LimbSide, Visit } from '../record/patient-record';
import { tapeErrorOf } from '../trend/limb-series';
import type { SeriesVisit } from '../trend/series-visit';
import { limbVolume } from '../volume/limb-volume';
import type { PatientAnalysis } from './analyse-patient';

/** Volume of a limb over the healthy other one at one visit, over the same heights: share and ml, half of their 95 % ranges, both volumes. */
export type LimbExcess = {
  readonly share: number;
  readonly error: number;
  readonly differenceMl: number;
  readonly differenceErrorMl: number;
  readonly volumeMl: number;
  readonly otherMl: number;
  readonly fromMm: number;
  readonly toMm: number;
};

/**
 * How much larger a limb is than the healthy other one at a visit, A / U − 1 over the heights above the ankle or wrist crease that both tape.
 *
 * Tape tension is common to both and falls out; error = 1.96 (A / U) √(var ln A + var ln U) of reading and placement.
 * Shape: the analysis, the limb, the visit. Undefined where the other limb is affected or was not taped at that visit, where the crease is not
 * known on both, or where they share no stretch. Source: excess volume as published; first-order error propagation.
 * Example: cylinders of girth 33 and 30 cm: 1.21 − 1 = 21 %.
 */
export function limbExcess(analysis: PatientAnalysis, { limb, side }: LimbSide, visit: Visit): LimbExcess | undefined {
  const other = analysis.limbs.find((one) => one.series.limb === limb && one.series.side !== side);
  const own = analysis.limbs.find((one) => one.series.limb === limb && one.series.side === side);
  const [mine, healthy] = [own, other].map((one) => one?.series.visits.find((at) => at.visit === visit));
  if (!mine || !healthy || !other || other.affected) return undefined;
  const [crease, otherCrease] = [mine, healthy].map((one) => one.placed.landmarks.get(distalLandmark(limb))?.placeMm);
  const heights = [mine, healthy].map((one, index) => heightsOf(one, (index === 0 ? crease : otherCrease) ?? Number.NaN));
  const fromMm = Math.max(...heights.map(({ lowest }) => lowest));
  const toMm = Math.min(...heights.map(({ highest }) => highest));
  if (crease === undefined || otherCrease === undefined || !(toMm > fromMm)) return undefined;
  const tape = tapeErrorOf(analysis.policy);
  const volume = limbVolume(mine.placed.line, tape, 0, { fromMm: fromMm + crease, toMm: toMm + crease });
  const reference = limbVolume(healthy.placed.line, tape, 0, { fromMm: fromMm + otherCrease, toMm: toMm + otherCrease });
  if (isNoAnswer(volume) || isNoAnswer(reference)) return undefined;
  const ratio = volume.volumeMl / reference.volumeMl;
  const sd = Math.hypot(volume.sdMl / volume.volumeMl, reference.sdMl / reference.volumeMl);
  return {
    share: ratio - 1,
    error: 1.96 * ratio * sd,
    differenceMl: volume.volumeMl - reference.volumeMl,
    differenceErrorMl: 1.96 * Math.hypot(volume.sdMl, reference.sdMl),
    volumeMl: volume.volumeMl,
    otherMl: reference.volumeMl,
    fromMm,
    toMm,
  };
}

function heightsOf({ placed }: SeriesVisit, creaseMm: number): { readonly lowest: number; readonly highest: number } {
  const { placesMm } = placed.line;
  return { lowest: (placesMm[0] ?? Number.NaN) - creaseMm, highest: (placesMm.at(-1) ?? Number.NaN) - creaseMm };
}
