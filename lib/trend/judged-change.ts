import type { StepKind } from '../course-model/course';
import { type ChangeReading, readChange, smallestChangeSaid } from '../course-model/read-change';
import type { LandmarkId } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { REACH_95 } from '../statistics/reach-95';
import type { CalendarDay } from '../units/calendar-day';
import type { CheckedChange } from './checked-change';
import { STEP_ODDS } from './course-terms';
import type { LimbChange } from './limb-change';
import type { LimbCourse } from './limb-course';
import type { ReadAs } from './limb-looks';
import { ratioSd } from './measured-change';
import type { SeriesVisit } from './series-visit';
import { type Confounder, judge, type Verdict } from './verdict';
import { withoutDoubtfulRungs } from './without-doubtful-rungs';

/** Girth change with what explains it taken out, as the joint model has it. Ratios; the SD is of a logarithm. */
export type ExplainedChange = {
  /** From body size and, where it bears witness, the other limb. */
  readonly expectedRatio: number;
  /** The size that a change has if there was one, mean over all its possible days and places. */
  readonly unexplainedRatio: number;
  readonly sd: number;
  /** How much of the other limb's surprise was taken as common, 0 to 1. */
  readonly otherLimbShare: number;
};

/** The change itself, where the verdict says that there is one. */
export type FoundChange = {
  readonly part: StepKind;
  /** The landmark between the parts; null where the middle of the ladder divides them. */
  readonly at: LandmarkId | null;
  /** The first visit that has it, and the last one without it. */
  readonly since: CalendarDay;
  readonly before: CalendarDay;
  /** Girth of that part, later / earlier, beyond what is expected; SD of its logarithm. */
  readonly ratio: number;
  readonly sd: number;
};

/** A change with its verdict and the figures that the verdict used. */
export type JudgedChange = {
  readonly change: CheckedChange;
  readonly explained: ExplainedChange | undefined;
  /** Probability of a change beyond what the body explains, 0 to 1; undefined where nothing can be expected. */
  readonly probability: number | undefined;
  readonly found: FoundChange | undefined;
  /** Share of volume below which the two ladders by themselves cannot be told apart. */
  readonly smallestRealChange: number;
  /** The smallest new change of the whole limb's girth that would be said at the later visit; a share. */
  readonly smallestSaid: number | undefined;
  /** Volume expected from body size and, where used, the other limb: later / earlier. */
  readonly expectedVolumeRatio: number;
  readonly verdict: Verdict;
  readonly confounders: readonly Confounder[];
  /** What was not written down at one of the visits and may have differed: it is said, never taken for the same. */
  readonly notOnRecord: readonly ('posture' | 'time-of-day')[];
  /** The verdict with the suggested shift taken out, where one was suggested. */
  readonly realignedVerdict: Verdict | undefined;
};

/** 99.9 % point of χ² with one, two and three degrees of freedom: landmarks further apart than chance puts them in a thousand visits. */
const MOST_STRAIN = [10.83, 13.82, 16.27] as const;

function mostStrain(landmarks: number): number {
  return MOST_STRAIN[landmarks - 2] ?? Number.POSITIVE_INFINITY;
}

const FULL_MINUTES = 24 * 60;
/** Two healthy limbs of one person drift apart by about this share of girth between visits. Clinic default. */
const LIMBS_DRIFT_SD = 0.005;

/**
 * The verdict on a limb's change between two of its visits: one reading of the joint model of all visits up to the later one.
 *
 * It is read as recorded; again with the suggested shift taken out; and again without doubtful rungs. Where these disagree it is
 * `cannot-tell`, with the reasons; so it is where landmarks disagree beyond chance and no moved zero accounts for it.
 * Shape: a change, the limb's course (the healthy other limb in it), the policy. Source: engine sections 4 to 6.
 */
export function judgeChange(change: CheckedChange, course: LimbCourse, policy: Policy): JudgedChange {
  const [from, to] = [change.earlier, change.later].map(({ visit }) => course.series.visits.findIndex((one) => one.visit === visit)) as [
    number,
    number,
  ];
  const confounders = visitConfounders(change, policy);
  const witnessed = course.witnessedAt(from) && course.witnessedAt(to);
  const explains = change.body.modelSd !== undefined || witnessed;
  const read = (readAs: ReadAs, strict: boolean): ChangeReading | undefined => {
    const at = explains ? course.at(to, readAs, strict) : undefined;
    return at && readChange(at, from, course.farShareAt(to));
  };
  const expectedRatio = change.expectedGirthRatio * (witnessed ? commonChange(course, from, to) : 1);
  const expectedVolumeRatio = expectedRatio ** 2 * change.body.expectedLength.ratio;
  const smallestRealChange = REACH_95 * ratioSd(change.measured.volume);
  const weigh = (readAs: ReadAs): { readonly verdict: Verdict; readonly reading: ChangeReading | undefined } => {
    const measured = readAs === 'realigned' && change.realigned ? change.realigned : change.measured;
    const reading = read(readAs, false);
    const verdict = judge({
      volumeRatio: measured.volume.ratio,
      expectedVolumeRatio,
      smallestRealChange: REACH_95 * ratioSd(measured.volume),
      reading,
      strict: () => (confounders.length > 0 ? read(readAs, true) : undefined),
      limit: policy.alarmProbability,
    });
    return { verdict, reading };
  };
  const doubtful = withoutDoubtfulRungs(change.later) !== change.later;
  const moved = change.realigned !== undefined;
  const recorded = weigh(doubtful || moved ? 'recorded' : 'clean');
  const realigned = moved ? weigh('realigned').verdict : undefined;
  const undoubted = doubtful ? weigh('clean').verdict : undefined;
  const reasons: Confounder[] = recorded.verdict === 'cannot-tell' ? [...confounders] : [];
  if (recorded.verdict === 'cannot-tell' && !explains) reasons.push('missing-height');
  // A height in doubt stretches a child's limb wrongly, and the zero then looks moved: the height is what to ask about.
  const bodyInDoubt = hangsOnDoubtfulBody(change);
  if (realigned && realigned !== recorded.verdict && !bodyInDoubt) reasons.push('moved-zero');
  if (undoubted && undoubted !== recorded.verdict) reasons.push('doubtful-rungs');
  if (bodyInDoubt) reasons.push('doubtful-body');
  if (change.earlier.sidesInDoubt || change.later.sidesInDoubt) reasons.push('sides-swapped');
  if (change.measured.shared.share < policy.sharedSpanShare) reasons.push('little-shared-span');
  if (change.shift?.finding === 'inch-centimetre') reasons.push('other-unit');
  const strained = change.alignment.strain > mostStrain(change.alignment.earlierMm.length);
  if (strained && !change.realigned) reasons.push('landmarks-disagree');
  // Too few rungs in common for the model, enough for a volume.
  if (recorded.verdict === 'cannot-tell' && reasons.length === 0) reasons.push('little-shared-span');
  const verdict = reasons.length > 0 ? 'cannot-tell' : recorded.verdict;
  const { reading } = recorded;
  const at = course.at(to, 'clean', false);
  const smallest = explains && at ? smallestChangeSaid(at, course.stepVariance, STEP_ODDS, policy.alarmProbability) : undefined;
  return {
    change,
    explained: reading && {
      expectedRatio,
      unexplainedRatio: Math.exp(reading.size),
      sd: reading.sd,
      otherLimbShare: witnessed ? otherLimbShare(change) : 0,
    },
    probability: reading?.probability,
    found: reading && isAlarm(verdict) ? foundOf(reading, course) : undefined,
    smallestRealChange,
    smallestSaid: smallest === undefined ? undefined : Math.expm1(smallest),
    expectedVolumeRatio,
    verdict,
    confounders: reasons,
    notOnRecord: notOnRecord(change),
    realignedVerdict: realigned,
  };
}

/** Whether a verdict says that a limb changed beyond what explains it. Example: `cannot-tell` → false. */
export function isAlarm(verdict: Verdict): boolean {
  return verdict === 'more-than-expected' || verdict === 'less-than-expected';
}

function foundOf(reading: ChangeReading, { series, limb }: LimbCourse): FoundChange {
  return {
    part: reading.part,
    at: limb.at ?? null,
    since: (series.visits[reading.sinceVisit] as SeriesVisit).visit.day,
    before: (series.visits[reading.sinceVisit - 1] as SeriesVisit).visit.day,
    ratio: Math.exp(reading.partSize),
    sd: reading.partSd,
  };
}

/** What the other limb says of the body between two visits, beyond weight and height: a factor of girth. */
function commonChange(course: LimbCourse, from: number, to: number): number {
  const [before, after] = [course.commonAt(from), course.commonAt(to)];
  return before !== undefined && after !== undefined ? Math.exp(after - before) : 1;
}

function otherLimbShare({ body, measured }: LimbChange): number {
  const common = (body.modelSd ?? 1) ** 2 + measured.girth.tensionVariance;
  return common / (common + measured.girth.ownVariance + LIMBS_DRIFT_SD ** 2);
}

/** A weight in doubt at either visit, or in a child a height. */
function hangsOnDoubtfulBody({ earlier, later }: LimbChange): boolean {
  return [earlier, later].some(({ bodyInDoubt }) => bodyInDoubt.includes('weight') || (earlier.growing && bodyInDoubt.includes('height')));
}

/** What differed between the two visits beside the limb: measurer, posture, hour of the day (legs). What is not on record is named by `notOnRecord`. */
function visitConfounders(change: LimbChange, policy: Policy): Confounder[] {
  const { earlier, later } = change;
  const found: Confounder[] = [];
  if (!change.sameMeasurer) found.push('other-measurer');
  if (differs(earlier.visit.posture, later.visit.posture)) found.push('posture');
  if (later.ladder.limb === 'leg' && hoursApart(earlier, later) > policy.legHoursApart) found.push('time-of-day');
  return found;
}

function notOnRecord({ earlier, later }: LimbChange): ('posture' | 'time-of-day')[] {
  const lacks = (of: 'posture' | 'time') => [earlier, later].some(({ visit }) => !visit[of]);
  return [
    ...(lacks('posture') ? (['posture'] as const) : []),
    ...(later.ladder.limb === 'leg' && lacks('time') ? (['time-of-day'] as const) : []),
  ];
}

function differs(one: string | null, other: string | null): boolean {
  return one !== null && other !== null && one.trim().toLowerCase() !== other.trim().toLowerCase();
}

/** Hours between two clock times, whatever the day; 0 when either is unknown. Example: 08:30 and 16:00 are 7.5 h apart. */
function hoursApart(earlier: SeriesVisit, later: SeriesVisit): number {
  const from = minutesOf(earlier.visit.time);
  const to = minutesOf(later.visit.time);
  if (from === undefined || to === undefined) return 0;
  const apart = Math.abs(to - from);
  return Math.min(apart, FULL_MINUTES - apart) / 60;
}

function minutesOf(time: string | null): number | undefined {
  const parts = time ? /^(\d{1,2}):(\d{2})$/.exec(time) : null;
  return parts ? Number(parts[1]) * 60 + Number(parts[2]) : undefined;
}
