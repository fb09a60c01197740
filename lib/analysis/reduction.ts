import { type Phase, phaseOn } from '../course/phases';
import { girthAt } from '../ladder/girth-at';
import { otherSide } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import { isAffected } from '../record/patient-record';
import { REACH_95 } from '../statistics/reach-95';
import { limbChange, samePlace } from '../trend/limb-change';
import { ratioSd } from '../trend/measured-change';
import type { SeriesVisit } from '../trend/series-visit';
import { withoutDoubtfulRungs } from '../trend/without-doubtful-rungs';
import { type CalendarDay, daysBetween } from '../units/calendar-day';
import type { AnalysedLimb, PatientAnalysis } from './analyse-patient';
import { type BothLimbs, bothLimbs, excessWithin, sharedHeights } from './limb-excess';

/** Where a reduction stands: the volume of the newest visit against an earlier one of it, and whether that is a level. */
export type ReductionLevel = {
  readonly levelled: boolean;
  readonly since: CalendarDay;
  readonly day: CalendarDay;
  /** Volume later / earlier − 1. */
  readonly volumeShare: number;
  /** The largest change of girth at the same place, mm, with its sign. */
  readonly girthMm: number;
};

/**
 * Whether the reduction that a limb is in today has levelled off: its newest ladder against the latest one of the phase at least
 * `levelledOffDays` before it.
 *
 * Level: |V₂ / V₁ − 1| below the smallest change that one therapist's tape tells (`levelledOffArmPct`, `levelledOffLegPct`), no girth at the
 * same place moved by `levelledOffGirthMm`, and the last three steps did not all go down. Doubtful rungs count in nothing.
 * Shape: the analysis and an affected limb; undefined where no reduction runs. Refuses by name before `levelledOffVisits` further visits.
 * Source: clinic default over published repeatability (Tidhar 2015); no numeric rule of a plateau is published.
 * Example: 2,268 ml on a Monday, 2,263 ml on the Friday: −0.2 %, levelled off.
 */
export function reductionLevel({ record, policy, today }: PatientAnalysis, limb: AnalysedLimb): ReductionLevel | NoAnswer | undefined {
  const phase = phaseOn(record.phases ?? [], today);
  if (phase?.kind !== 'reduction' || !limb.affected) return undefined;
  const visits = visitsIn(limb, phase);
  const newest = visits.at(-1);
  const earlier = newest && visits.findLast(({ visit }) => daysBetween(visit.day, newest.visit.day) >= policy.levelledOffDays);
  if (!newest || !earlier || visits.indexOf(earlier) === 0 || visits.length <= policy.levelledOffVisits)
    return { noAnswer: 'Too few visits of this reduction to say whether it has levelled off.' };
  const [before, after] = [withoutDoubtfulRungs(earlier), withoutDoubtfulRungs(newest)];
  const change = limbChange(before, after, limb.series.limb, policy);
  if (isNoAnswer(change)) return change;
  const moves = before.placed.line.placesMm.flatMap((placeMm, rung) => {
    const now = girthAt(after.placed.line.placesMm, after.placed.line.girthsMm, samePlace(change, placeMm));
    return now === undefined ? [] : [now - (before.placed.line.girthsMm[rung] as number)];
  });
  const girthMm = moves.reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0);
  const volumeShare = change.measured.volume.ratio - 1;
  const least = limb.series.limb === 'arm' ? policy.levelledOffArmPct : policy.levelledOffLegPct;
  const levelled =
    100 * Math.abs(volumeShare) < least && Math.abs(girthMm) < policy.levelledOffGirthMm && !allDown(visits.slice(-4), limb, policy);
  return { levelled, since: earlier.visit.day, day: newest.visit.day, volumeShare, girthMm };
}

function allDown(visits: readonly SeriesVisit[], { series }: AnalysedLimb, policy: Policy): boolean {
  if (visits.length < 4) return false;
  return visits.slice(1).every((later, index) => {
    const change = limbChange(visits[index] as SeriesVisit, later, series.limb, policy);
    return !isNoAnswer(change) && change.measured.volume.ratio < 1;
  });
}

/** The visits of a limb within a phase, in order. */
function visitsIn(limb: AnalysedLimb, phase: Phase): readonly SeriesVisit[] {
  return limb.visits.flatMap(({ at, inPhase }) => (inPhase.phase === phase ? [at] : []));
}

/** How much of what a reduction took off a limb is back, from its end to the newest visit. */
export type Rebound = {
  /** The visit that the reduction began with, the one it ended with, the newest. */
  readonly began: CalendarDay;
  readonly ended: CalendarDay;
  readonly day: CalendarDay;
  /** What was taken off and what is back: ml of excess, or shares of the first volume where both limbs are affected. */
  readonly lost: number;
  readonly back: number;
  /** back / lost. */
  readonly backShare: number;
  /** back / what was left at the end; null where nothing was left, or no excess is defined. */
  readonly aboveEndShare: number | null;
  readonly of: 'excess' | 'volume';
  /** Either share reaches its limit, beyond the error of the tape. */
  readonly reached: boolean;
};

/**
 * What is back of the last reduction that ended, at the newest visit of a limb.
 *
 * Excess (affected − other) over the heights taped on both limbs at all three visits: lost = E₀ − E₁, back = E₂ − E₁. Where both limbs are
 * affected, the limb's own volume over the anatomy that two visits share: lost = 1 − V₁/V₀, back = (V₂ − V₁)/V₀. Reached: back beyond 1.96 SD,
 * and back / lost at `reboundRegainedPct` or back / E₁ above `reboundAbovePct`.
 * Shape: the analysis and an affected limb; undefined where no reduction has ended, nothing was measured since, or it took off nothing beyond the error.
 * Source: Vignes 2011 (half of the reduction), Vignes 2007 (a tenth above its end).
 * Example: excess 470 → 223 → 331 ml: 108 of 247 ml, 44 % is back, 48 % above the end.
 */
export function reboundSince(analysis: PatientAnalysis, limb: AnalysedLimb): Rebound | undefined {
  const { record, policy, today } = analysis;
  const phases = record.phases ?? [];
  const at = phases.findLastIndex(({ kind, from }) => kind === 'reduction' && from <= today);
  const phase = phases[at];
  if (!phase || !limb.affected || phaseOn(phases, today) === phase) return undefined;
  const end = phase.until ?? phases[at + 1]?.from;
  const first = limb.visits.find(({ inPhase }) => inPhase.phase === phase)?.inPhase.baseline;
  const last = end && limb.series.visits.findLast(({ visit }) => visit.day <= end && visit.day >= phase.from);
  const newest = limb.series.visits.at(-1);
  if (!first || !last || !newest || first === last || newest.visit.day <= last.visit.day) return undefined;
  const found = ofExcess(analysis, limb, [first, last, newest]) ?? ofVolume(analysis, limb, [first, last, newest]);
  if (!found || found.lost <= REACH_95 * found.lostSd) return undefined;
  const backShare = found.back / found.lost;
  const aboveEndShare = found.left !== null && found.left > 0 ? found.back / found.left : null;
  const much = 100 * backShare >= policy.reboundRegainedPct || 100 * (aboveEndShare ?? 0) > policy.reboundAbovePct;
  return {
    ...{ began: first.visit.day, ended: last.visit.day, day: newest.visit.day },
    ...{ lost: found.lost, back: found.back, backShare, aboveEndShare, of: found.of },
    reached: much && found.back > REACH_95 * found.backSd,
  };
}

type Found = Pick<Rebound, 'lost' | 'back' | 'of'> & { readonly lostSd: number; readonly backSd: number; readonly left: number | null };
type Three = readonly [SeriesVisit, SeriesVisit, SeriesVisit];

function ofExcess(analysis: PatientAnalysis, { series }: AnalysedLimb, three: Three): Found | undefined {
  if (three[2].growing) return undefined;
  const both = three.flatMap(({ visit }) => {
    const found = bothLimbs(analysis, series, visit);
    return isNoAnswer(found) ? [] : [found];
  });
  const spans = both.flatMap((one) => sharedHeights(one) ?? []);
  const [whole] = spans;
  if (both.length < 3 || spans.length < 3 || !whole) return undefined;
  const span = { fromMm: Math.max(...spans.map(({ fromMm }) => fromMm)), toMm: Math.min(...spans.map(({ toMm }) => toMm)) };
  if (span.toMm - span.fromMm < analysis.policy.sharedSpanShare * (whole.toMm - whole.fromMm)) return undefined;
  const [e0, e1, e2] = both.map((one: BothLimbs) => excessWithin(analysis, one, span));
  if (!e0 || !e1 || !e2 || isNoAnswer(e0) || isNoAnswer(e1) || isNoAnswer(e2)) return undefined;
  const sdMl = (...all: readonly (typeof e0)[]) => Math.hypot(...all.map(({ excess }) => excess.sdMm3)) / 1000;
  return {
    lost: e0.differenceMl - e1.differenceMl,
    lostSd: sdMl(e0, e1),
    back: e2.differenceMl - e1.differenceMl,
    backSd: sdMl(e1, e2),
    left: e1.differenceMl,
    of: 'excess',
  };
}

function ofVolume({ record, policy }: PatientAnalysis, { series }: AnalysedLimb, [first, last, newest]: Three): Found | undefined {
  if (!isAffected(record, series.limb, otherSide(series.side)) || newest.growing) return undefined;
  const down = limbChange(first, last, series.limb, policy);
  const up = limbChange(last, newest, series.limb, policy);
  if (isNoAnswer(down) || isNoAnswer(up)) return undefined;
  const [atEnd, since] = [down.measured.volume, up.measured.volume];
  return {
    lost: 1 - atEnd.ratio,
    lostSd: atEnd.ratio * ratioSd(atEnd),
    back: atEnd.ratio * (since.ratio - 1),
    backSd: atEnd.ratio * since.ratio * ratioSd(since),
    left: null,
    of: 'volume',
  };
}
