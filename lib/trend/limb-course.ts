import type { CourseAt, LimbLook, VisitLook } from '../course-model/course';
import { followCourse } from '../course-model/follow-course';
import { readChange } from '../course-model/read-change';
import { type SmoothLevel, smoothLevels } from '../course-model/smooth-levels';
import type { Policy } from '../limits/policy';
import { courseTerms, DAY_SD } from './course-terms';
import type { LooksOf, ReadAs } from './limb-looks';
import type { DividedLimb } from './part-girths';
import { notCompared } from './same-day';
import type { LimbSeries, SeriesVisit } from './series-visit';
import { noHabits, type VisitHabits, visitHabits } from './visit-habits';

/** The model of one limb over all its visits, worked out when it is asked for. */
export type LimbCourse = {
  readonly series: LimbSeries;
  readonly limb: DividedLimb;
  /** Whether the healthy other limb was taped at a visit and bears witness there. */
  readonly witnessedAt: (visit: number) => boolean;
  /**
   * What is believed at a visit (its number in the series) from all visits up to it; undefined where its ladder cannot be set against the first.
   * `strict` leaves out what another measurer, posture or hour brings.
   */
  readonly at: (visit: number, readAs: ReadAs, strict: boolean) => CourseAt | undefined;
  /** Body error common to both limbs at a visit (log girth), from all visits up to it. */
  readonly commonAt: (visit: number) => number | undefined;
  /** Share of mean girth that the far part has, over what the visit and the first ladder tape. */
  readonly farShareAt: (visit: number) => number;
  /** Log girth of the limb at each visit as all visits together have it: what a chart draws. */
  readonly levels: () => readonly SmoothLevel[];
  readonly stepVariance: number;
};

/**
 * The joint model of a limb: every ladder of it, and of the healthy other limb where there is one, up to each visit.
 *
 * Ladders are set on the anatomy of the limb's first one (`partGirths`). Of the visits before the one judged, doubtful rungs are left out and a
 * zero that looks moved is placed by its girths; a visit whose sides look changed round, or that reads in the other unit, is left out altogether.
 * All variances of error are multiplied by the clinic's scale (`errorScale`). Shape: a series, the healthy other limb, the policy.
 * Source: engine section 6; `course-model/follow-course`. Cost: one fit a ladder and one run over the visits; one run more for a visit in doubt.
 */
export function limbCourse(series: LimbSeries, witness: LimbSeries | undefined, policy: Policy, looksOf: LooksOf): LimbCourse {
  const { visits } = series;
  const own = looksOf(series);
  const other = witness && looksOf(witness);
  const witnessVisit = visits.map(({ visit }) => witness?.visits.findIndex((one) => one.visit === visit) ?? -1);
  const witnessLook = (visit: number) => {
    const there = witnessVisit[visit] as number;
    return there >= 0 ? other?.at(there, 'clean') : undefined;
  };
  const parts = [own.limb.parts, ...(other ? [other.limb.parts] : [])];
  const scale = policy.errorScale;
  const habits = { full: visitHabits(series, policy), strict: noHabits(series) };
  const lookAt = (visit: number, readAs: ReadAs, { visits: days }: VisitHabits): VisitLook => {
    const body = own.bodyAt(visit);
    const { dayVariance, numbers } = days[visit] as VisitHabits['visits'][0];
    const before = visits[visit - 1];
    const limbs = [own.at(visit, readAs), witnessLook(visit)].flatMap((girths, limb): LimbLook[] =>
      girths ? [{ limb, girths: girths.girths, covariance: girths.covariance.map((row) => row.map((value) => scale * value)) }] : [],
    );
    return {
      years: yearsSince(series, visit),
      dayVariance: scale * (policy.tensionSameSd ** 2 + DAY_SD ** 2 + dayVariance + body.variance),
      habits: numbers,
      lnWeight: body.lnWeight,
      lnHeight: body.lnHeight,
      mayStep: before !== undefined && !notCompared(before, visits[visit] as SeriesVisit),
      limbs,
    };
  };
  const looksUntil = (until: number, readAs: ReadAs, lasting: VisitHabits): readonly VisitLook[] =>
    visits.slice(0, until).map((visit, index) => {
      const last = index === until - 1;
      const look = lookAt(index, last ? readAs : 'clean', lasting);
      return visit.sidesInDoubt && !(last && readAs !== 'clean') ? { ...look, limbs: [] } : look;
    });
  const follow = (until: number, readAs: ReadAs, lasting: VisitHabits, newestOnly: boolean): readonly CourseAt[] =>
    followCourse(looksUntil(until, readAs, lasting), courseTerms(parts, lasting.variances, scale), newestOnly);
  const farShareAt = (visit: number): number => own.at(visit, 'clean')?.farShare ?? 0.5;
  const whole = new Map<string, readonly CourseAt[]>();
  const wholeOf = (lasting: VisitHabits, newestOnly: boolean): readonly CourseAt[] => {
    const key = `${lasting === habits.strict} ${newestOnly}`;
    const known = whole.get(`${lasting === habits.strict} false`) ?? whole.get(key) ?? follow(visits.length, 'clean', lasting, newestOnly);
    whole.set(key, known);
    return known;
  };
  const levelsOfAll = (): readonly SmoothLevel[] => {
    const { histories } = wholeOf(habits.full, true).at(-1) as CourseAt;
    const terms = courseTerms(parts, habits.full.variances, scale);
    return smoothLevels(looksUntil(visits.length, 'clean', habits.full), farShareAt, terms, histories);
  };
  let levels: readonly SmoothLevel[] | undefined;
  return {
    series,
    limb: own.limb,
    witnessedAt: (visit) => witnessLook(visit) !== undefined,
    at: (visit, readAs, strict) => {
      if (!own.at(visit, readAs)) return undefined;
      const lasting = strict ? habits.strict : habits.full;
      return readAs === 'clean' ? wholeOf(lasting, visit === visits.length - 1)[visit] : follow(visit + 1, readAs, lasting, true)[visit];
    },
    commonAt: (visit) => (own.at(visit, 'clean') ? wholeOf(habits.full, true)[visit]?.common : undefined),
    farShareAt,
    levels: () => {
      levels ??= levelsOfAll();
      return levels;
    },
    stepVariance: courseTerms(parts, [], scale).stepVariance,
  };
}

/**
 * Probability that a limb has changed beyond what the body explains between a visit and its newest one; 1 where the model cannot say.
 * Example: the two visits of the example of `readChange` → 0.492.
 */
export function changedSince({ series, at, farShareAt }: LimbCourse, visit: SeriesVisit): number {
  const newest = series.visits.length - 1;
  const course = at(newest, 'clean', false);
  return (course && readChange(course, series.visits.indexOf(visit), farShareAt(newest))?.probability) ?? 1;
}

function yearsSince({ visits }: LimbSeries, visit: number): number {
  return ((visits[visit] as SeriesVisit).placed.day - (visits[0] as SeriesVisit).placed.day) / 365.25;
}
