import { withoutBodyInDoubt } from '../doubts/record-body-doubts';
import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import type { ReviewedRecord } from '../record/next-visit';
import type { PatientRecord } from '../record/patient-record';
import { isAffected } from '../record/patient-record';
import { checkedChange } from '../trend/checked-change';
import { type JudgedChange, judgeChange } from '../trend/judged-change';
import type { ChangeBetween, LimbChange } from '../trend/limb-change';
import { type LimbCourse, limbCourse } from '../trend/limb-course';
import { type LooksOf, rememberedLooks } from '../trend/limb-looks';
import { limbSeries } from '../trend/limb-series';
import { type LimbTrend, limbTrend } from '../trend/limb-trend';
import { type PhaseVisits, phaseVisits } from '../trend/phase-visits';
import { rememberedChanges } from '../trend/remembered-changes';
import { notCompared } from '../trend/same-day';
import type { LimbSeries, SeriesVisit } from '../trend/series-visit';
import { volumeOfVisit } from '../trend/volume-over-time';
import { type CalendarDay, showDay } from '../units/calendar-day';
import { relativeVolumeChange as rvc } from '../volume/excess';
import type { LimbVolume } from '../volume/limb-volume';
import { type AnalysedPiece, analysePiece } from './analyse-piece';
import { knownThen } from './known-then';

/** One ladder of a limb with everything that is said of it. */
export type AnalysedVisit = {
  readonly at: SeriesVisit;
  readonly volume: LimbVolume | NoAnswer;
  /** The visits of its phase, with their baseline. */
  readonly inPhase: PhaseVisits;
  /** Against the baseline of the phase, the first visit of all, and the visit before; null at each itself. Worked out when first asked for. */
  readonly sinceBaseline: JudgedChange | NoAnswer | null;
  readonly sinceFirst: JudgedChange | NoAnswer | null;
  readonly sinceLast: JudgedChange | NoAnswer | null;
};

/** One limb over all its visits. */
export type AnalysedLimb = {
  readonly series: LimbSeries;
  readonly affected: boolean;
  /** The joint model of its visits, the healthy other limb in it. */
  readonly course: LimbCourse;
  readonly visits: readonly AnalysedVisit[];
  readonly trend: LimbTrend | NoAnswer;
  /** A₂U₁ / U₂A₁ − 1 at the newest visit, the healthy other limb taped the same days; null where there is none. */
  readonly relativeVolumeChange: number | null;
};

/** Everything that the engine says of a patient on a day. */
export type PatientAnalysis = {
  readonly record: PatientRecord;
  /** The same record without heights and weights that look odd and were not kept. */
  readonly trusted: PatientRecord;
  readonly policy: Policy;
  readonly today: CalendarDay;
  readonly limbs: readonly AnalysedLimb[];
  readonly pieces: readonly AnalysedPiece[];
};

/**
 * The whole of what can be said of a patient on a day: limbs over visits, verdicts, trends, pieces and their outlook.
 *
 * Shape: a record, the clinic's policy, and the day called today. Pure: the same arguments give the same answer.
 * Cost grows in proportion to visits times rungs.
 */
export function analysePatient(record: ReviewedRecord, policy: Policy, today: CalendarDay): PatientAnalysis {
  const series = limbSeries(record, policy);
  const between = rememberedChanges(policy);
  const looksOf = rememberedLooks(policy, between);
  const limbs = series.map((one) => analyseLimb(one, series, record, policy, between, looksOf));
  return {
    record,
    trusted: withoutBodyInDoubt(record, policy),
    policy,
    today,
    limbs,
    pieces: record.pieces.map((piece) => analysePiece(piece, limbs, series, record, policy, today, between)),
  };
}

function analyseLimb(
  series: LimbSeries,
  all: readonly LimbSeries[],
  record: PatientRecord,
  policy: Policy,
  between: ChangeBetween,
  looksOf: LooksOf,
): AnalysedLimb {
  const other = all.find((one) => one.limb === series.limb && one.side !== series.side);
  const affected = isAffected(record, series.limb, series.side);
  const witness = affected && other && !isAffected(record, other.limb, other.side) ? other : undefined;
  const course = limbCourse(series, witness, policy, looksOf);
  const [first] = series.visits;
  const phases = phaseVisits(series.visits, record.phases ?? []);
  const visits = series.visits.map((at, index) => {
    const inPhase = phases[index] as PhaseVisits;
    const { baseline } = inPhase;
    const last = lastBefore(series.visits, index);
    const known = onceAsked(() => knownThen(index, series, witness, record, policy) ?? { course, witness });
    const since = (earlier: SeriesVisit) => {
      const { visits: then } = known().course.series;
      const [from, to] = [then[series.visits.indexOf(earlier)], then[index]] as [SeriesVisit, SeriesVisit];
      return judged(from, to, known().course, known().witness, policy, between);
    };
    const beforeBaseline = index < series.visits.indexOf(baseline);
    const sinceBaseline = onceAsked(() => {
      if (beforeBaseline) return { noAnswer: `Measured before the baseline of its phase, ${showDay(baseline.visit.day)}.` };
      return at === baseline ? null : since(baseline);
    });
    const sinceFirst = onceAsked(() => (at === first || !first ? null : since(first)));
    const sinceLast = onceAsked(() => (last ? since(last) : null));
    return {
      at,
      volume: volumeOfVisit(at, policy),
      inPhase,
      get sinceBaseline() {
        return sinceBaseline();
      },
      get sinceFirst() {
        return first === baseline ? sinceBaseline() : sinceFirst();
      },
      get sinceLast() {
        return last === baseline && !beforeBaseline ? sinceBaseline() : sinceLast();
      },
    };
  });
  return {
    series,
    affected,
    course,
    visits,
    trend: limbTrend(series, record.events ?? [], between),
    relativeVolumeChange: relativeVolumeChange(visits.at(-1)?.sinceBaseline, witness, between),
  };
}

/** The visit before one that it is compared with: the newest of an earlier day, or of the same day where a treatment lies between. */
function lastBefore(visits: readonly SeriesVisit[], index: number): SeriesVisit | undefined {
  const now = visits[index] as SeriesVisit;
  return visits.slice(0, index).findLast((one) => !notCompared(one, now));
}

/** An answer that is worked out when somebody asks for it, and once: of a long record most screens ask for the newest visit's only. */
function onceAsked<T>(workOut: () => T): () => T {
  let known: { readonly answer: T } | undefined;
  return () => {
    known ??= { answer: workOut() };
    return known.answer;
  };
}

/**
 * The judged change of a limb between two of its visits: a reading of its course.
 *
 * Where the earlier ladder says more of the later one than the limb's first ladder does (another stretch, no shared landmark), the course
 * begins with it.
 */
export function judged(
  earlier: SeriesVisit,
  later: SeriesVisit,
  course: LimbCourse,
  witness: LimbSeries | undefined,
  policy: Policy,
  between: ChangeBetween = rememberedChanges(policy),
): JudgedChange | NoAnswer {
  const { series } = course;
  const change = notCompared(earlier, later) ?? between(earlier, later, series.limb);
  if (isNoAnswer(change)) return change;
  const [first] = series.visits as [SeriesVisit];
  const fromFirst = first === earlier ? change : between(first, later, series.limb);
  const lengthOf = ({ measured }: LimbChange): number => measured.shared.earlier.toMm - measured.shared.earlier.fromMm;
  const bySelf = isNoAnswer(fromFirst) || lengthOf(fromFirst) < policy.sharedSpanShare * lengthOf(change);
  const own = bySelf ? { ...series, visits: series.visits.slice(series.visits.indexOf(earlier)) } : undefined;
  return judgeChange(
    checkedChange(change, policy),
    own ? limbCourse(own, witness, policy, rememberedLooks(policy, between)) : course,
    policy,
  );
}

function witnessChange(
  earlier: SeriesVisit,
  later: SeriesVisit,
  witness: LimbSeries | undefined,
  between: ChangeBetween,
): LimbChange | undefined {
  const before = witness?.visits.find((one) => one.visit === earlier.visit);
  const after = witness?.visits.find((one) => one.visit === later.visit);
  if (!witness || !before || !after) return undefined;
  const change = between(before, after, witness.limb);
  return isNoAnswer(change) ? undefined : change;
}

function relativeVolumeChange(
  latest: JudgedChange | NoAnswer | null | undefined,
  witness: LimbSeries | undefined,
  between: ChangeBetween,
): number | null {
  if (!latest || isNoAnswer(latest)) return null;
  const { change } = latest;
  const other = witnessChange(change.earlier, change.later, witness, between);
  if (!other) return null;
  return rvc({ affected: 1, other: 1 }, { affected: change.measured.volume.ratio, other: other.measured.volume.ratio });
}
