import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import type { PatientRecord } from '../record/patient-record';
import { cumulativeNormal } from '../statistics/normal';
import { anatomyOf } from '../trend/anatomy-of';
import { addDays, type CalendarDay } from '../units/calendar-day';
import { type BodyOutlook, bodyOutlook, girthAhead, lengthAhead } from './body-outlook';
import type { FitToday } from './fit-today';
import type { OwnTrend } from './own-trend';
import { relativeTightness } from './tightness';

/** What ends the fit first. */
export type OutgrownBy = 'tighter' | 'looser' | 'length';

/** The first day a piece no longer fits: middle estimate and the early bound that nine of ten keep to. */
export type OutgrowDate = {
  readonly day: CalendarDay | null;
  readonly earlyDay: CalendarDay | null;
  readonly by: OutgrownBy | null;
  /** What the early day is for; girths and length may then have left the band on another side than the middle estimate. */
  readonly earlyBy: OutgrownBy | null;
  /** Height above the distal landmark of the place that leaves the band first, mm; null for length. */
  readonly atHeightMm: number | null;
  /** The last day looked at; null dates mean "not by this day". */
  readonly lookedUntil: CalendarDay;
};

/** One-sided 90 % point of the normal distribution. */
const NINETY = 1.2816;
/**
 * The early day asks whether the band was left on any day up to then. Growth to come wanders, and a random walk without drift passes a
 * limit by a day twice as often as it lies beyond it on that day (reflection principle): 1.645 SD instead of 1.282. With drift less;
 * halfway is taken for girths, which kept the early day of a piece cut today in nine of ten simulated children. A growing limb's length
 * does not turn back, and what is unsure today does not wander: both are taken as they are.
 */
const ON_ANY_DAY = 1.15;
const LONGEST_DAYS = 364;
const STEP_DAYS = 28;

/**
 * First day on which tightness at any place of the piece leaves the working band, or a landmark has moved along it by more than
 * the clinic's share (4 %) of the covered length, whatever interval was measured at.
 *
 * Girths go from the newest ladder by body size (constant z) and the limb's own trend; the early day uses girth and length 1.28 SD out.
 * Shape: a fit, the record, the limb's own trend, the policy; calendar days. Not beyond twelve months from the newest ladder.
 * Refuses by name what `bodyOutlook` refuses. Source: engine section 8.
 */
export function outgrowDate(fit: FitToday, record: PatientRecord, trend: OwnTrend | undefined, policy: Policy): OutgrowDate | NoAnswer {
  const latest = fit.latest;
  const check = checker(fit, trend, policy);
  const lookedUntil = addDays(latest.visit.day, LONGEST_DAYS);
  let middle: { days: number; left: Left } | undefined;
  let early: { days: number; left: Left } | undefined;
  let looked = 0;
  for (let days = 0; days <= LONGEST_DAYS && !middle; days += STEP_DAYS) {
    const outlook = bodyOutlook(record, latest, days, policy);
    if (isNoAnswer(outlook)) {
      if (days === 0) return outlook;
      return dates(latest.visit.day, middle, early, addDays(latest.visit.day, looked));
    }
    looked = days;
    const left = early ? undefined : check(outlook, NINETY);
    if (left) early = { days: firstDay(record, fit, policy, days, (one) => check(one, NINETY) !== undefined), left };
    if (check(outlook, 0)) {
      const first = firstDay(record, fit, policy, days, (one) => check(one, 0) !== undefined);
      const atFirst = bodyOutlook(record, latest, first, policy);
      const leftThen = isNoAnswer(atFirst) ? undefined : check(atFirst, 0);
      if (leftThen) middle = { days: first, left: leftThen };
    }
  }
  return dates(latest.visit.day, middle, early, lookedUntil);
}

/** SDs beyond which a chance is taken as 0 or 1, and halvings until it is exact to four places. */
const FARTHEST_SD = 6;
const HALVINGS = 24;

/**
 * Chance that a piece has left its band, at any place or by length, on or before a day: 1 − Φ(z), z the SDs towards leaving at which it just does.
 *
 * The same law as the two dates: it is 0.1 on the early day and 0.5 on the middle one. Days at rising order give a chance that never falls, since what was
 * outgrown once is. Shape: a fit, record, trend, policy, days from the newest ladder, rising; a chance a day, as many as can be told.
 * Refuses by name what `bodyOutlook` refuses on the first of the days. Source: `outgrowDate`.
 */
export function outgrownChances(
  fit: FitToday,
  record: PatientRecord,
  trend: OwnTrend | undefined,
  policy: Policy,
  days: readonly number[],
): readonly number[] | NoAnswer {
  const check = checker(fit, trend, policy);
  const chances: number[] = [];
  for (const ahead of days) {
    const outlook = bodyOutlook(record, fit.latest, ahead, policy);
    if (isNoAnswer(outlook)) return chances.length > 0 ? chances : outlook;
    let [fits, left] = [-FARTHEST_SD, FARTHEST_SD];
    for (let halving = 0; halving < HALVINGS; halving++) {
      const middle = (fits + left) / 2;
      if (check(outlook, middle)) left = middle;
      else fits = middle;
    }
    chances.push(Math.max(chances.at(-1) ?? 0, 1 - cumulativeNormal(left)));
  }
  return chances;
}

/**
 * Whether a piece has left its band by the ladder of this fit: the middle estimate of `outgrowDate` on that day. False where the body cannot be told.
 * Example: every place within the band and no landmark off → false.
 */
export function leftBand(fit: FitToday, record: PatientRecord, policy: Policy): boolean {
  const outlook = bodyOutlook(record, fit.latest, 0, policy);
  return !isNoAnswer(outlook) && checker(fit, undefined, policy)(outlook, 0) !== undefined;
}

type Left = { readonly by: OutgrownBy; readonly atHeightMm: number | null };

function dates(
  from: CalendarDay,
  middle: { days: number; left: Left } | undefined,
  early: { days: number; left: Left } | undefined,
  lookedUntil: CalendarDay,
): OutgrowDate {
  return {
    day: middle ? addDays(from, middle.days) : null,
    earlyDay: early ? addDays(from, early.days) : null,
    by: middle?.left.by ?? null,
    earlyBy: early?.left.by ?? null,
    atHeightMm: middle?.left.atHeightMm ?? null,
    lookedUntil,
  };
}

/** What has left the band on a day, with girths and length so many SDs towards leaving it. */
function checker(fit: FitToday, trend: OwnTrend | undefined, policy: Policy): (outlook: BodyOutlook, sds: number) => Left | undefined {
  const { cut, latest } = fit;
  const anatomy = anatomyOf(cut.visit);
  const places = fit.places.map((place) => ({ place, anatomy: anatomy(place.placeMm) }));
  const coveredMm = cut.toMm - cut.fromMm;
  const mostDriftMm = (policy.lengthDriftPct / 100) * coveredMm;
  return (outlook, sds) => {
    for (const { place, anatomy: at } of places) {
      const ahead = girthAhead(latest, outlook, at, trend);
      const spread = sds * Math.hypot(place.evenedSd, ON_ANY_DAY * ahead.sd);
      const girth = place.cutFromGirthMm * place.evenedRatio * ahead.ratio;
      if (relativeTightness(place.relaxedNowMm, girth * Math.exp(spread), place.cutFromGirthMm, place.relaxedMm) > policy.bandHigh)
        return { by: 'tighter', atHeightMm: place.heightMm };
      if (relativeTightness(place.relaxedNowMm, girth * Math.exp(-spread), place.cutFromGirthMm, place.relaxedMm) < policy.bandLow)
        return { by: 'looser', atHeightMm: place.heightMm };
    }
    if (!latest.growing) return undefined;
    const length = lengthAhead(latest, outlook);
    const drift = (coveredMm + fit.lengthDriftMm) * length.ratio - coveredMm;
    const driftSd = Math.hypot(fit.lengthDriftSdMm, coveredMm * length.sd);
    return drift + sds * driftSd > mostDriftMm ? { by: 'length', atHeightMm: null } : undefined;
  };
}

/** The first day on which the condition holds, by halving the step that ends on `days`, where it holds; within a step growth does not turn back. */
function firstDay(record: PatientRecord, fit: FitToday, policy: Policy, days: number, holds: (outlook: BodyOutlook) => boolean): number {
  let fitsOn = days - STEP_DAYS;
  let leftBy = days;
  while (leftBy - fitsOn > 1 && leftBy > 0) {
    const middle = Math.max(Math.floor((fitsOn + leftBy) / 2), 0);
    const outlook = bodyOutlook(record, fit.latest, middle, policy);
    if (!isNoAnswer(outlook) && holds(outlook)) leftBy = middle;
    else fitsOn = middle;
  }
  return leftBy;
}
