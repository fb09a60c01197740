import { sharedSpan } from '../alignment/shared-span';
import { type LimbKind, otherSide } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import { isAffected, type LimbSide, type Visit } from '../record/patient-record';
import { REACH_95 } from '../statistics/reach-95';
import { limbChange } from '../trend/limb-change';
import { type CalendarDay, showDay } from '../units/calendar-day';
import { type ExcessReduction, excessReduction, weightAdjustedChange } from '../volume/excess';
import type { Span } from '../volume/span-volume';
import type { AnalysedLimb, AnalysedVisit, PatientAnalysis } from './analyse-patient';
import { type BothLimbs, bothLimbs, excessWithin, sharedHeights } from './limb-excess';

/** How much of the first excess of a phase is gone, by both formulas, half the 95 % range of the first, and since which visit. */
export type ExcessGone = ExcessReduction & { readonly sameDayError: number; readonly since: CalendarDay };

/**
 * How much of the phase's first excess is gone at a visit, over the heights that both limbs tape at both visits.
 *
 * The first excess is that of the first visit of the phase at which it can be counted. Heights above the crease are the same heights in a
 * grown person; in a growing one they follow the affected limb's landmarks. Shape: the analysis, the limb, the visit.
 * Error of the same-day share: 1.96·√(s₂² + (E₂/E₁)²·s₁²)/E₁ with the errors s of both excesses E, taken apart between visits (first order).
 * Refuses by name: no excess at this visit, the first visit itself, less than `sharedSpanShare` of the first stretch in common, a first
 * excess that is nought or less, below `leastExcessPct` of the other limb or within `leastExcessErrors` of its own standard errors.
 * Source: `excessReduction`. Example: 300 ml at first, 90 ml now: 70 % by the other limb of the same day.
 */
export function excessGone(analysis: PatientAnalysis, limbSide: LimbSide, visit: Visit): ExcessGone | NoAnswer {
  const now = bothLimbs(analysis, limbSide, visit);
  if (isNoAnswer(now)) return now;
  const first = firstOfPhase(analysis, limbSide, now);
  if (!first || first.mine === now.mine) return { noAnswer: 'The first excess of the phase: nothing to compare it with yet.' };
  const spans = sharedOfBoth(analysis, limbSide, first, now);
  if (isNoAnswer(spans)) return spans;
  const [before, after] = [excessWithin(analysis, first, spans.first), excessWithin(analysis, now, spans.now)];
  if (isNoAnswer(before)) return before;
  if (isNoAnswer(after)) return after;
  const { excess } = before;
  const gone = excessReduction(excess.volumes, after.excess.volumes);
  if (isNoAnswer(gone)) return gone;
  const { leastExcessPct, leastExcessErrors } = analysis.policy;
  const day = showDay(first.mine.visit.day);
  if (100 * excess.share < leastExcessPct)
    return { noAnswer: `The first excess, ${day}, is below ${leastExcessPct} % of the other limb: a share of it says little.` };
  if (excess.mm3 < leastExcessErrors * excess.sdMm3)
    return { noAnswer: `The first excess, ${day}, is within ${leastExcessErrors} standard errors of nought: a share of it says little.` };
  const { excess: left } = after;
  const sameDayError = (REACH_95 * Math.hypot(left.sdMm3, (left.mm3 / excess.mm3) * excess.sdMm3)) / excess.mm3;
  return { ...gone, sameDayError, since: first.mine.visit.day };
}

function firstOfPhase(analysis: PatientAnalysis, limbSide: LimbSide, { mine }: BothLimbs): BothLimbs | undefined {
  for (const at of analysedAt(analysis, limbSide, mine.visit)?.inPhase.visits ?? []) {
    const both = bothLimbs(analysis, limbSide, at.visit);
    if (!isNoAnswer(both) && sharedHeights(both)) return both;
  }
  return undefined;
}

function analysedAt({ limbs }: PatientAnalysis, { limb, side }: LimbSide, visit: Visit): AnalysedVisit | undefined {
  return limbs.find(({ series }) => series.limb === limb && series.side === side)?.visits.find(({ at }) => at.visit === visit);
}

/** The heights that both limbs tape at both visits, as they lie at each. */
function sharedOfBoth({ policy }: PatientAnalysis, { limb }: LimbSide, first: BothLimbs, now: BothLimbs): TwoSpans | NoAnswer {
  const [before, after] = [sharedHeights(first), sharedHeights(now)];
  const apart: NoAnswer = { noAnswer: 'Too little of the limb was measured on both sides at both visits.' };
  if (!before || !after) return apart;
  const both = first.mine.growing ? grownSpans(first, now, before, after, limb, policy) : heightsInCommon(before, after);
  if (!both) return apart;
  if (isNoAnswer(both)) return both;
  const share = (both.first.toMm - both.first.fromMm) / (before.toMm - before.fromMm);
  return share >= policy.sharedSpanShare ? both : apart;
}

type TwoSpans = { readonly first: Span; readonly now: Span };

function grownSpans(one: BothLimbs, other: BothLimbs, earlier: Span, later: Span, limb: LimbKind, policy: Policy) {
  const change = limbChange(one.mine, other.mine, limb, policy);
  if (isNoAnswer(change)) return change;
  const moved = ({ fromMm, toMm }: Span, by: number): Span => ({ fromMm: fromMm + by, toMm: toMm + by });
  const [before, after] = [moved(earlier, one.creaseMm), moved(later, other.creaseMm)];
  const shared = sharedSpan([before.fromMm, before.toMm], [after.fromMm, after.toMm], change.alignment);
  return shared && { first: moved(shared.earlier, -one.creaseMm), now: moved(shared.later, -other.creaseMm) };
}

function heightsInCommon(before: Span, after: Span): TwoSpans {
  const span = { fromMm: Math.max(before.fromMm, after.fromMm), toMm: Math.min(before.toMm, after.toMm) };
  return { first: span, now: span };
}

/**
 * Weight-adjusted change of a limb since the baseline of its phase, A₂W₁ / (W₂A₁) − 1, where the other limb is affected too.
 *
 * Shape: the analysis, the limb, one of its visits; null at the baseline. Refuses by name where the other limb is not affected or was never
 * measured (excess says more), where the two ladders do not compare, and without a weight near either day. Source: `weightAdjustedChange`.
 * Example: a limb 5 % larger at a weight 10 % higher: 1.05 / 1.10 − 1 = −4.5 %.
 */
export function weightAdjusted({ record }: PatientAnalysis, { series }: AnalysedLimb, visit: AnalysedVisit): number | NoAnswer | null {
  if (!isAffected(record, series.limb, otherSide(series.side))) return { noAnswer: 'The other limb is not affected.' };
  const since = visit.sinceBaseline;
  if (!since || isNoAnswer(since)) return since;
  const { earlier, later, measured } = since.change;
  const [before, now] = [earlier.body.weightKg, later.body.weightKg];
  if (!before || !now) return { noAnswer: 'No weight on record near one of the days.' };
  if ([earlier, later].some(({ bodyInDoubt }) => bodyInDoubt.includes('weight')))
    return { noAnswer: 'A weight near one of the days looks odd.' };
  return weightAdjustedChange(measured.volume.ratio, now.value / before.value);
}
