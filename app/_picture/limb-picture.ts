import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { letOutMm } from '@/lib/garments/let-out';
import { isAtHand } from '@/lib/garments/piece-stage';
import { girthNear } from '@/lib/ladder/girth-at';
import { type LandmarkId, LIMBS, type LimbKind, placeInWords, type Side } from '@/lib/ladder/limb';
import type { Ruler } from '@/lib/ladder/place-on-tape';
import { placeOf } from '@/lib/ladder/taped-line';
import type { Policy } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { isCutFromLadderOf, limbOf, type Piece } from '@/lib/record/patient-record';
import { visitCutFrom } from '@/lib/record/visit-cut-from';
import { limbChange, samePlace } from '@/lib/trend/limb-change';
import { heightOnLimb, rulerOf } from '@/lib/trend/limb-series';
import type { LimbSeries, SeriesVisit } from '@/lib/trend/series-visit';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import type { LengthUnit } from '@/lib/units/length';

/** An earlier ladder on today's anatomy: girths at today's rungs, null where it was not taped. */
export type EarlierLine = {
  readonly kind: 'cut from' | 'first' | 'before';
  readonly day: CalendarDay;
  readonly girthsMm: readonly (number | null)[];
};

/** One limb of a picture. Heights are above the distal landmark, mm, rising. */
export type PictureLimb = {
  readonly side: Side;
  readonly affected: boolean;
  readonly day: CalendarDay;
  readonly heightsMm: readonly number[];
  readonly girthsMm: readonly number[];
  /** Rungs with an open question, and rungs whose question was answered "keep". */
  readonly asked: readonly number[];
  readonly kept: readonly number[];
  readonly earlier: readonly EarlierLine[];
  readonly strips: readonly PictureStrip[];
};

/** Tightness of one piece at places along a limb, and the stretch it covers. */
export type PictureStrip = {
  /** One piece, or several that sit alike: `3, 4`. */
  readonly piece: string;
  /** The band it is judged by: that of its order where a class was ordered. */
  readonly band: { readonly low: number; readonly high: number };
  readonly fromMm: number;
  readonly toMm: number;
  readonly cells: readonly {
    readonly heightMm: number;
    readonly tightness: number;
  }[];
};

export type PictureLandmark = {
  readonly name: string;
  readonly heightMm: number;
  readonly inferred: boolean;
  readonly isZero: boolean;
};

/** Everything the limb outline draws: the figures are the engine's, nothing is computed while drawing but places on the page. */
export type LimbPicture = {
  readonly limb: LimbKind;
  readonly unit: LengthUnit;
  readonly ruler: Ruler;
  readonly limbs: readonly PictureLimb[];
  readonly landmarks: readonly PictureLandmark[];
};

/** The picture of a kind of limb by its newest ladders; undefined when that limb was never taped at two places. */
export function limbPicture(analysis: PatientAnalysis, limb: LimbKind): LimbPicture | undefined {
  const found = analysis.limbs.filter((one) => one.series.limb === limb);
  const limbs = found.flatMap((one) => {
    const newest = one.series.visits.at(-1);
    return newest && newest.placed.line.placesMm.length >= 2 ? [pictureLimb(one.series, newest, one.affected, analysis)] : [];
  });
  const lead = found.find((one) => one.affected) ?? found[0];
  const newest = lead?.series.visits.at(-1);
  if (!newest || limbs.length === 0) return undefined;
  return {
    limb,
    unit: newest.ladder.unit,
    ruler: rulerOf(newest),
    limbs,
    landmarks: landmarksOf(newest, limb),
  };
}

function landmarksOf(visit: SeriesVisit, limb: LimbKind): PictureLandmark[] {
  const known = LIMBS[limb].landmarks.flatMap((landmark: LandmarkId) => {
    const placed = visit.placed.landmarks.get(landmark);
    if (!placed) return [];
    const isZero = landmark === visit.ladder.zero;
    return [
      {
        name: placeInWords(landmark),
        heightMm: heightOnLimb(visit, placed.placeMm),
        inferred: placed.inferred,
        isZero,
      },
    ];
  });
  if (known.some((landmark) => landmark.isZero)) return known;
  return [
    ...known,
    {
      name: placeInWords(visit.ladder.zero),
      heightMm: heightOnLimb(visit, 0),
      inferred: false,
      isZero: true,
    },
  ];
}

function pictureLimb(series: LimbSeries, newest: SeriesVisit, affected: boolean, analysis: PatientAnalysis): PictureLimb {
  const { line } = newest.placed;
  const rungOf = (distanceMm: number | null): number =>
    distanceMm === null ? -1 : line.placesMm.indexOf(placeOf(newest.ladder, distanceMm));
  const keptDistances = newest.ladder.rungs.filter((rung) => rung.kept?.length).map((rung) => rung.distance.nm / 1e6);
  return {
    side: series.side,
    affected,
    day: newest.visit.day,
    heightsMm: line.placesMm.map((place) => heightOnLimb(newest, place)),
    girthsMm: line.girthsMm,
    asked: newest.doubts.map((doubt) => rungOf(doubt.distanceMm)).filter((rung) => rung >= 0),
    kept: keptDistances.map(rungOf).filter((rung) => rung >= 0),
    earlier: earlierLines(series, newest, analysis),
    strips: strips(series, newest, analysis),
  };
}

/** At most two earlier ladders: the one the newest piece in use was cut from, and the first. */
function earlierLines(series: LimbSeries, newest: SeriesVisit, analysis: PatientAnalysis): EarlierLine[] {
  const inUse = analysis.pieces
    .filter((one) => one.inUse && isAtHand(one.piece) && isCutFromLadderOf(one.piece, series.limb, series.side))
    .at(-1);
  const cut = inUse && visitCutFrom(series.visits, inUse.piece);
  const first = series.visits[0];
  const lines: EarlierLine[] = [];
  if (cut && cut !== newest) lines.push(...lineOf('cut from', cut, newest, series.limb, analysis.policy));
  if (first && first !== newest && first !== cut) lines.push(...lineOf('first', first, newest, series.limb, analysis.policy));
  return lines;
}

function lineOf(kind: EarlierLine['kind'], earlier: SeriesVisit, newest: SeriesVisit, limb: LimbKind, policy: Policy): EarlierLine[] {
  const change = limbChange(earlier, newest, limb, policy);
  if (isNoAnswer(change)) return [];
  const places = earlier.placed.line.placesMm.map((place) => samePlace(change, place));
  const girthsMm = newest.placed.line.placesMm.map((place) => girthNear(places, earlier.placed.line.girthsMm, place) ?? null);
  return [{ kind, day: earlier.visit.day, girthsMm }];
}

/** One strip for each cut in use: two pieces of the same order and stretch sit alike and share one. */
function strips(series: LimbSeries, newest: SeriesVisit, analysis: PatientAnalysis): PictureStrip[] {
  const shared = new Map<string, PictureStrip>();
  for (const one of analysis.pieces) {
    const { fit, piece } = one;
    if (piece.limb !== series.limb || piece.side !== series.side || !one.inUse || !isAtHand(piece)) continue;
    if (isNoAnswer(fit) || fit.latest !== newest) continue;
    const alike = [letOutMm(piece), piece.cutFrom, piece.reductionPct, piece.convention, fit.cut.fromMm, fit.cut.toMm].join(' ');
    const same = shared.get(alike);
    const onToday = (placeMm: number): number => heightOnLimb(newest, fit.change ? samePlace(fit.change, placeMm) : placeMm);
    shared.set(alike, {
      piece: same ? `${same.piece}, ${piece.piece}` : piece.piece,
      band: one.band,
      fromMm: onToday(fit.cut.fromMm),
      toMm: onToday(fit.cut.toMm),
      cells: fit.places.map((place) => ({ heightMm: onToday(place.placeMm), tightness: place.tightness })),
    });
  }
  return [...shared.values()];
}

/** One sentence that says what the picture shows, for those who cannot see it. */
export function pictureInWords(picture: LimbPicture): string {
  const limbs = picture.limbs.map((one) => {
    const questions = one.asked.length > 0 ? `, ${one.asked.length} in doubt` : '';
    return `${one.side} ${picture.limb} on ${showDay(one.day)}, ${one.girthsMm.length} girths${questions}`;
  });
  return `Outline of the ${limbs.join('; ')}. The table beside it holds the same figures.`;
}

/** The picture of the limb that a piece lies on; none of one that has no ladder. */
export function pictureOf(analysis: PatientAnalysis, piece: Piece): LimbPicture | undefined {
  const on = piece.covers === 'measures' ? undefined : limbOf(piece);
  return on && limbPicture(analysis, on.limb);
}
