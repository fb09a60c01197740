import { cubicAt, type MonotoneCubic, monotoneCubic } from '../alignment/monotone-cubic';
import { placeCovariance } from '../alignment/place-covariance';
import { girthNear } from '../ladder/girth-at';
import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import type { Piece } from '../record/patient-record';
import { type ChangeBetween, type LimbChange, samePlace } from '../trend/limb-change';
import { heightOnLimb } from '../trend/limb-series';
import type { LimbSeries, SeriesVisit } from '../trend/series-visit';
import { type CutFrom, cutFrom } from './covered-places';
import { letOutMm } from './let-out';
import { relaxedGirth } from './relaxed-girth';
import { exponentSd, relativeTightness, tightnessSlope } from './tightness';

/** Tightness of a piece at one place, with the girths it comes from. */
export type PlaceFit = {
  /** Place on the cut-from ladder's ruler, and height above the distal landmark, mm. */
  readonly placeMm: number;
  readonly heightMm: number;
  readonly cutFromGirthMm: number;
  readonly girthNowMm: number;
  /** Relaxed girth as it was cut, and with what has been let out since. */
  readonly relaxedMm: number;
  readonly relaxedNowMm: number;
  readonly tightness: number;
  /** SD of tightness from both readings, tension, placement, and how tension may follow strain. */
  readonly sd: number;
  /** Girth now / girth cut from, drawn towards the rest of the limb as far as the reading is unsure; and its SD (of ln). */
  readonly evenedRatio: number;
  readonly evenedSd: number;
};

/** Fit of a piece by the last ladder of its limb. */
export type FitToday = {
  readonly piece: Piece;
  readonly cut: CutFrom;
  readonly latest: SeriesVisit;
  readonly change: LimbChange | null;
  readonly places: readonly PlaceFit[];
  /** How far the far end of the piece has drifted from its anatomy since it was cut, mm; positive when the limb grew longer. */
  readonly lengthDriftMm: number;
  readonly lengthDriftSdMm: number;
};

/**
 * Girth of one place varies from the limb's common change by about this share from visit to visit, as in `part-girths`; and by so much more where the
 * limb changed beyond what the body explains. Clinic defaults.
 */
const LOCAL_SD = { shape: 0.005, changed: 0.01 };

/**
 * Relative tightness along a piece by the newest ladder of its limb, each place on the same anatomy as when it was cut.
 *
 * Tightness as taped stands per place with its error. Beside it an evened ratio: the place's own change weighted with the change of
 * the whole shared span by reliability, w = τ² / (τ² + s²), for anything that looks ahead. That of the span is what body size leads one to expect and
 * the share k + (1 − k) p of what was taped beyond it: k = m² / (m² + s²) as the body model and the tape are sure, p the probability of a change that
 * the body does not explain (joint model; 1 where it is not known).
 * Age and washing are not in it. Shape: a piece, its limb's series, the policy, the changes between its visits. Refuses by name where ladders cannot be compared.
 * Source: `relativeTightness`; engine section 7.
 */
export function fitToday(
  piece: Piece,
  series: LimbSeries | undefined,
  policy: Policy,
  between: ChangeBetween,
  changedSince: (cut: SeriesVisit) => number = () => 1,
): FitToday | NoAnswer {
  const cut = cutFrom(piece, series);
  if (isNoAnswer(cut)) return cut;
  const latest = series?.visits.at(-1) as SeriesVisit;
  if (latest === cut.visit) return asCut(piece, cut, policy);
  const change = between(cut.visit, latest, cut.visit.ladder.limb);
  if (isNoAnswer(change)) return change;
  const changed = changedSince(cut.visit);
  const shape = monotoneCubic(latest.placed.line.placesMm, latest.placed.line.girthsMm);
  const places = cut.rungs.flatMap((rung) => placeFit(piece, cut.visit, latest, change, shape, rung, policy, changed));
  if (places.length === 0) return { noAnswer: 'The newest ladder has no place that this piece covers.' };
  const coveredMm = cut.toMm - cut.fromMm;
  const { length } = change.measured;
  return {
    piece,
    cut,
    latest,
    change,
    places,
    lengthDriftMm: latest.growing || cut.visit.growing ? coveredMm * (length.ratio - 1) : 0,
    lengthDriftSdMm: coveredMm * Math.sqrt(length.ownVariance),
  };
}

/** A piece whose ladder is the newest one: as fitted everywhere, but for what was let out. */
function asCut(piece: Piece, cut: CutFrom, policy: Policy): FitToday {
  const { line } = cut.visit.placed;
  const places = cut.rungs.map((rung) => {
    const girth = line.girthsMm[rung] as number;
    const placeMm = line.placesMm[rung] as number;
    const relaxedMm = relaxedGirth(girth, piece.reductionPct, piece.convention);
    const relaxedNowMm = relaxedMm + letOutMm(piece);
    return {
      placeMm,
      heightMm: heightOnLimb(cut.visit, placeMm),
      cutFromGirthMm: girth,
      girthNowMm: girth,
      relaxedMm,
      relaxedNowMm,
      tightness: relativeTightness(relaxedNowMm, girth, girth, relaxedMm),
      sd: exponentSd(relaxedNowMm, girth, girth, relaxedMm, policy),
      evenedRatio: 1,
      evenedSd: 0,
    };
  });
  return { piece, cut, latest: cut.visit, change: null, places, lengthDriftMm: 0, lengthDriftSdMm: 0 };
}

/**
 * The piece as its next one would be cut: from the newest ladder, over the same cover, at that ladder's own rungs.
 *
 * Shape: a fit and the series of its limb; the fit itself where the piece is cut from the newest ladder, or where that ladder does not say where the cover ends.
 * Example: cut where the fold stood at 22½ in, the newest ladder goes to 23½: the next piece has a place there.
 */
export function fitOfNext(fit: FitToday, series: LimbSeries, policy: Policy): FitToday {
  const { piece, latest } = fit;
  if (fit.cut.visit === latest) return fit;
  const next = { ...piece, cutFrom: latest.visit.day, cutFromVisitId: null };
  const cut = cutFrom(next, { ...series, visits: [latest] });
  return isNoAnswer(cut) ? fit : asCut(next, cut, policy);
}

function placeFit(
  piece: Piece,
  cutVisit: SeriesVisit,
  latest: SeriesVisit,
  change: LimbChange,
  shape: MonotoneCubic,
  rung: number,
  policy: Policy,
  changed: number,
): PlaceFit[] {
  const placeMm = cutVisit.placed.line.placesMm[rung] as number;
  const cutGirth = cutVisit.placed.line.girthsMm[rung] as number;
  const now = latest.placed.line;
  const laterPlace = samePlace(change, placeMm);
  const girthNow = girthNear(now.placesMm, now.girthsMm, laterPlace);
  if (girthNow === undefined) return [];
  const relaxedMm = relaxedGirth(cutGirth, piece.reductionPct, piece.convention);
  const relaxedNowMm = relaxedMm + letOutMm(piece);
  const { girth } = change.measured;
  const slope = cubicAt(shape, laterPlace, { girthMm: 0, slope: 0 }).slope;
  const readings = policy.readingSdMm ** 2 * (1 / girthNow ** 2 + 1 / cutGirth ** 2);
  const placement = placeCovariance(change.alignment, placeMm, placeMm) * (slope / girthNow) ** 2;
  const own = readings + placement;
  const localVariance = LOCAL_SD.shape ** 2 + changed * LOCAL_SD.changed ** 2;
  const trust = localVariance / (localVariance + own);
  const common = commonChange(change, placeMm, changed);
  const local = Math.log(girthNow / cutGirth / girth.ratio) - common.lnBesideMean;
  return [
    {
      placeMm,
      heightMm: heightOnLimb(cutVisit, placeMm),
      cutFromGirthMm: cutGirth,
      girthNowMm: girthNow,
      relaxedMm,
      relaxedNowMm,
      tightness: relativeTightness(relaxedNowMm, girthNow, cutGirth, relaxedMm),
      sd: Math.hypot(
        tightnessSlope(relaxedMm, girthNow, cutGirth) * Math.sqrt(own + girth.tensionVariance),
        exponentSd(relaxedNowMm, girthNow, cutGirth, relaxedMm, policy),
      ),
      evenedRatio: Math.exp(common.ln + trust * local),
      evenedSd: Math.sqrt(trust * own + common.kept * ((1 - trust) * girth.ownVariance + girth.tensionVariance)),
    },
  ];
}

/** ln of the common change expected at a place now, how that place's expectation lies beside the mean one, and the share of the tape's change kept. */
function commonChange(change: LimbChange, placeMm: number, changed: number) {
  const { body, measured, expectedAt, expectedGirthRatio } = change;
  const { ratio, ownVariance, tensionVariance } = measured.girth;
  if (body.modelSd === undefined) return { ln: Math.log(ratio), lnBesideMean: 0, kept: 1 };
  const model = body.modelSd ** 2;
  const kept = changed + (1 - changed) * (model / (model + ownVariance + tensionVariance));
  const lnExpected = Math.log(expectedAt(placeMm));
  const lnMean = Math.log(expectedGirthRatio);
  return { ln: lnExpected + kept * (Math.log(ratio) - lnMean), lnBesideMean: lnExpected - lnMean, kept };
}
