import { distalLandmark, otherSide } from '../ladder/limb';
import { isNoAnswer, type NoAnswer } from '../outcome';
import { isSameMeasurer } from '../record/measurer';
import { isAffected, type LimbSide, type Visit } from '../record/patient-record';
import { REACH_95 } from '../statistics/reach-95';
import { tapeErrorOf } from '../trend/limb-series';
import type { SeriesVisit } from '../trend/series-visit';
import { type ExcessVolume, excessVolume } from '../volume/excess';
import type { Span } from '../volume/span-volume';
import type { PatientAnalysis } from './analyse-patient';

/** The ladders of an affected limb and of the healthy other one, taped the same day, and where each has its ankle or wrist crease. */
export type BothLimbs = {
  readonly mine: SeriesVisit;
  readonly healthy: SeriesVisit;
  readonly creaseMm: number;
  readonly otherCreaseMm: number;
};

/** Volume of a limb over the healthy other one, over the same heights: share and ml, half of their 95 % ranges, both volumes. */
export type LimbExcess = {
  readonly share: number;
  readonly error: number;
  readonly differenceMl: number;
  readonly differenceErrorMl: number;
  readonly volumeMl: number;
  readonly otherMl: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** The same in mm³ with one standard deviation, and between the rungs. Heights above the crease, mm. */
  readonly excess: ExcessVolume;
};

/**
 * How much larger a limb is than the healthy other one at a visit: A − U and A / U − 1 over the heights above the ankle or wrist crease that both tape.
 *
 * Errors are 1.96 SD of `excessVolume`; tape tension is common to both where one person taped both, and then falls out of the share.
 * The other limb is that of the same visit, else of another visit of that day with the same occasion.
 * Shape: the analysis, the limb, the visit. Refuses by name where the other limb is affected or was not taped that day, where the crease is
 * not known on both, or where they share no stretch. Source: excess volume as published; `excessVolume`.
 * Example: cylinders of girth 33 and 30 cm: 1.21 − 1 = 21 %.
 */
export function limbExcess(analysis: PatientAnalysis, limbSide: LimbSide, visit: Visit): LimbExcess | NoAnswer {
  const both = bothLimbs(analysis, limbSide, visit);
  if (isNoAnswer(both)) return both;
  const span = sharedHeights(both);
  return span ? excessWithin(analysis, both, span) : { noAnswer: 'The two limbs have no stretch in common.' };
}

/** The two ladders that an excess is counted from; refuses by name like `limbExcess`. */
export function bothLimbs({ limbs, record }: PatientAnalysis, { limb, side }: LimbSide, visit: Visit): BothLimbs | NoAnswer {
  const own = limbs.find((one) => one.series.limb === limb && one.series.side === side);
  const other = limbs.find((one) => one.series.limb === limb && one.series.side !== side);
  const mine = own?.series.visits.find((at) => at.visit === visit);
  if (isAffected(record, limb, otherSide(side))) return { noAnswer: 'Both limbs are affected: neither is what the other would be.' };
  const healthy = other && sameDay(other.series.visits, visit);
  if (!mine || !healthy) return { noAnswer: 'The other limb was not measured that day.' };
  const [creaseMm, otherCreaseMm] = [mine, healthy].map(({ placed }) => placed.landmarks.get(distalLandmark(limb))?.placeMm);
  if (creaseMm === undefined || otherCreaseMm === undefined)
    return {
      noAnswer: `The ${limb === 'leg' ? 'ankle' : 'wrist'} crease is not known on both limbs, so their heights cannot be set side by side.`,
    };
  return { mine, healthy, creaseMm, otherCreaseMm };
}

function sameDay(visits: readonly SeriesVisit[], visit: Visit): SeriesVisit | undefined {
  const ofDay = visits.filter((one) => one.visit.day === visit.day && (one.visit.occasion ?? null) === (visit.occasion ?? null));
  return visits.find((one) => one.visit === visit) ?? ofDay[0];
}

/** The heights above the crease that both limbs tape, mm. */
export function sharedHeights({ mine, healthy, creaseMm, otherCreaseMm }: BothLimbs): Span | undefined {
  const own = onHeights(mine, creaseMm).placesMm;
  const other = onHeights(healthy, otherCreaseMm).placesMm;
  const fromMm = Math.max(own[0] ?? Number.NaN, other[0] ?? Number.NaN);
  const toMm = Math.min(own.at(-1) ?? Number.NaN, other.at(-1) ?? Number.NaN);
  return toMm > fromMm ? { fromMm, toMm } : undefined;
}

/** The excess over a stretch of heights that both limbs tape. */
export function excessWithin({ policy }: PatientAnalysis, both: BothLimbs, span: Span): LimbExcess | NoAnswer {
  const { mine, healthy, creaseMm, otherCreaseMm } = both;
  const tape = tapeErrorOf(policy);
  const common = mine.visit === healthy.visit || isSameMeasurer(mine.visit, healthy.visit);
  const delta = common ? tape.tensionSameMeasurer : tape.tensionOtherMeasurer;
  const excess = excessVolume(onHeights(mine, creaseMm), onHeights(healthy, otherCreaseMm), span, tape, {
    affected: delta,
    other: delta,
    common,
  });
  if (isNoAnswer(excess)) return excess;
  return {
    share: excess.share,
    error: REACH_95 * excess.shareSd,
    differenceMl: excess.mm3 / 1000,
    differenceErrorMl: (REACH_95 * excess.sdMm3) / 1000,
    volumeMl: excess.volumes.affected / 1000,
    otherMl: excess.volumes.other / 1000,
    ...span,
    excess,
  };
}

function onHeights({ placed }: SeriesVisit, creaseMm: number) {
  const { placesMm, girthsMm } = placed.line;
  return { placesMm: placesMm.map((place) => place - creaseMm), girthsMm };
}
