import type { Policy } from '../record/policy';
import type { CheckedChange } from './checked-change';
import { type ExplainedChange, explainedChange } from './explained-change';
import type { LimbChange } from './limb-change';
import type { SeriesVisit } from './limb-series';
import { type MeasuredChange, ratioSd } from './measured-change';
import { type UnevenChange, unevenChange } from './uneven-change';
import { type Confounder, judge, type Verdict } from './verdict';

/** A change with its verdict and the figures that the verdict used. */
export type JudgedChange = {
  readonly change: CheckedChange;
  readonly explained: ExplainedChange | undefined;
  readonly smallestRealChange: number;
  /** Volume expected from body size and, where used, the other limb: later / earlier. */
  readonly expectedVolumeRatio: number;
  readonly verdict: Verdict;
  readonly confounders: readonly Confounder[];
  /** What was not written down at one of the visits and may have differed: it is said, never taken for the same. */
  readonly notOnRecord: readonly ('posture' | 'time-of-day')[];
  /** The verdict with the suggested shift taken out, where one was suggested. */
  readonly realignedVerdict: Verdict | undefined;
  /** The far part against the near one, where that is beyond the clinic's limit and no moved zero, doubt or misread landmark may be behind it. */
  readonly uneven: UnevenChange | undefined;
};

/** 99.9 % point of χ² with one, two and three degrees of freedom: landmarks further apart than chance puts them in a thousand visits. */
const MOST_STRAIN = [10.83, 13.82, 16.27] as const;

function mostStrain(landmarks: number): number {
  return MOST_STRAIN[landmarks - 2] ?? Number.POSITIVE_INFINITY;
}

const FULL_MINUTES = 24 * 60;

/**
 * The verdict on a limb's change, with the healthy other limb as witness where there is one.
 *
 * The verdict is computed as recorded; again with the suggested shift taken out; and again without doubtful rungs. Where these
 * disagree it is `cannot-tell`, with the reasons; so it is where landmarks disagree beyond chance and no moved zero accounts for it.
 * The verdict is on mean girth; `uneven` says beside it where one part changed and the other did not.
 * Shape: a change; the other limb's change between the same two days when that limb is healthy; the policy.
 * Source: engine sections 4 to 6.
 */
export function judgeChange(
  change: CheckedChange,
  other: LimbChange | undefined,
  policy: Policy,
  withoutDoubts?: LimbChange,
): JudgedChange {
  const confounders = visitConfounders(change, policy);
  const confoundSd = confounders.some((one) => one === 'posture' || one === 'time-of-day') ? postureSd(change, policy) : 0;
  const weigh = (of: LimbChange, measured: MeasuredChange) => judgeMeasured(of, measured, other, policy, confounders, confoundSd);
  const recorded = weigh(change, change.measured);
  const realigned = change.realigned ? weigh(change, change.realigned).verdict : undefined;
  const undoubted = withoutDoubts ? weigh(withoutDoubts, withoutDoubts.measured).verdict : undefined;
  const reasons: Confounder[] = recorded.verdict === 'cannot-tell' ? [...confounders] : [];
  if (recorded.verdict === 'cannot-tell' && !recorded.full) reasons.push('missing-height');
  if (realigned && realigned !== recorded.verdict) reasons.push('moved-zero');
  if (undoubted && undoubted !== recorded.verdict) reasons.push('doubtful-rungs');
  if (hangsOnDoubtfulBody(change)) reasons.push('doubtful-body');
  if (change.earlier.sidesInDoubt || change.later.sidesInDoubt) reasons.push('sides-swapped');
  if (change.measured.shared.share < policy.sharedSpanShare) reasons.push('little-shared-span');
  if (change.shift?.finding === 'inch-centimetre') reasons.push('other-unit');
  const strained = change.alignment.strain > mostStrain(change.alignment.earlierMm.length);
  if (strained && !change.realigned) reasons.push('landmarks-disagree');
  const clear = (of: LimbChange) => clearlyUneven(unevenChange(of, other, policy, confoundSd), policy);
  const uneven = !change.shift?.finding && !strained && (!withoutDoubts || clear(withoutDoubts)) ? clear(change) : undefined;
  return {
    change,
    explained: recorded.full,
    smallestRealChange: recorded.smallestRealChange,
    expectedVolumeRatio: recorded.expectedVolumeRatio,
    verdict: reasons.length > 0 ? 'cannot-tell' : recorded.verdict,
    confounders: reasons,
    notOnRecord: notOnRecord(change),
    realignedVerdict: realigned,
    uneven,
  };
}

/** A weight in doubt at either visit, or in a child a height. */
function hangsOnDoubtfulBody({ earlier, later }: LimbChange): boolean {
  return [earlier, later].some(({ bodyInDoubt }) => bodyInDoubt.includes('weight') || (earlier.growing && bodyInDoubt.includes('height')));
}

function clearlyUneven(found: UnevenChange | undefined, policy: Policy): UnevenChange | undefined {
  return found && Math.abs(Math.log(found.ratio)) > policy.unevenSds * found.sd ? found : undefined;
}

type Weighed = {
  readonly verdict: Verdict;
  readonly full: ExplainedChange | undefined;
  readonly smallestRealChange: number;
  readonly expectedVolumeRatio: number;
};

function judgeMeasured(
  change: LimbChange,
  measured: MeasuredChange,
  other: LimbChange | undefined,
  policy: Policy,
  confounders: readonly Confounder[],
  confoundSd: number,
): Weighed {
  const witness = other && { girth: other.measured.girth, expectedRatio: other.expectedGirthRatio };
  const { modelSd } = change.body;
  const full = explainedChange(measured.girth, change.expectedGirthRatio, { modelSd, confoundSd }, witness);
  const sameTension = { ...measured.girth, tensionVariance: 2 * policy.tensionSameSd ** 2 };
  const strict = explainedChange(sameTension, change.expectedGirthRatio, { modelSd, confoundSd: 0 }, witness);
  const smallestRealChange = 1.96 * ratioSd(measured.volume);
  const expectedVolumeRatio = (full?.expectedRatio ?? change.expectedGirthRatio) ** 2 * change.body.expectedLength.ratio;
  const verdict = judge({
    volumeRatio: measured.volume.ratio,
    expectedVolumeRatio,
    smallestRealChange,
    strict,
    full,
    confounders,
    sds: policy.verdictSds,
  });
  return { verdict, full, smallestRealChange, expectedVolumeRatio };
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

function postureSd({ later }: LimbChange, policy: Policy): number {
  return later.ladder.limb === 'leg' ? policy.legPostureSd : policy.armPostureSd;
}
