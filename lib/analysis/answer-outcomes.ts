import { fitToday } from '../garments/fit-today';
import { leftBand } from '../garments/outgrow-date';
import { policyOfPiece } from '../garments/piece-band';
import type { LimbKind, Side } from '../ladder/limb';
import { isNoAnswer } from '../outcome';
import { isCutFromLadderOf, limbOf, type Piece, type Visit } from '../record/patient-record';
import type { GivenAgainst, OutlookCame, VerdictCame } from '../service/what-came';
import { checkedChange } from '../trend/checked-change';
import { isAlarm } from '../trend/judged-change';
import type { ChangeBetween } from '../trend/limb-change';
import { changedSince } from '../trend/limb-course';
import { lookBack } from '../trend/looking-back';
import { ratioSd } from '../trend/measured-change';
import { rememberedChanges } from '../trend/remembered-changes';
import { notCompared } from '../trend/same-day';
import type { Verdict } from '../trend/verdict';
import { type CalendarDay, daysBetween } from '../units/calendar-day';
import type { AnalysedLimb, AnalysedVisit, PatientAnalysis } from './analyse-patient';
import type { AnalysedPiece } from './analyse-piece';
import type { GivenOutlook, GivenVerdict } from './given-answers';

/** Answers that were given of one visit, as they were stored. */
export type StoredGiven = {
  readonly id: string;
  readonly visit: Visit;
  readonly verdicts: readonly GivenVerdict[];
  readonly outlooks: readonly GivenOutlook[];
};

type OfAnswer = { readonly given: string; readonly day: CalendarDay; readonly limb: LimbKind; readonly side: Side };

/** What came of one verdict. */
export type VerdictOutcome = OfAnswer & {
  readonly kind: 'verdict';
  readonly against: GivenAgainst;
  readonly word: Verdict;
  readonly probability: number | null;
  readonly came: VerdictCame;
  /** Whether there was a change, by the later view; null where nobody measured since, or the model has no say. */
  readonly changed: boolean | null;
  /** By how many hundredths of its SD the change measured at the next visit missed the one that was given; null where they are not compared. */
  readonly miss: number | null;
};

/** What came of the dates of one piece. */
export type OutlookOutcome = OfAnswer & {
  readonly kind: 'outlook';
  readonly piece: string;
  readonly came: OutlookCame;
  /** Whether the piece fitted up to its early day; null while that cannot be told. */
  readonly earlyKept: boolean | null;
  /** Days from the outgrow day to the day on which the fit was found to have ended, below 0 when earlier; null where one of them is not there. */
  readonly daysOff: number | null;
};

export type AnswerOutcome = VerdictOutcome | OutlookOutcome;

/** From this probability on a change is taken to have come. Source: the likelier of the two. */
const LIKELIER = 0.5;

/**
 * What came of the answers that were given of a patient's visits, by everything measured since: one outcome an answer, in their order.
 *
 * A verdict is *confirmed* where all visits up to the newest say the same of that change, *contradicted* where they say another: more or less than expected
 * while the probability looking back reaches the clinic's limit and its direction is that one; the other verdicts while it does not. That is the engine's own
 * later view. Independent of it is `missOf`. Dates: `outlookOutcome`. Shape: an analysis of today, what was given of its visits; an answer whose limb or piece is no longer there
 * is left out. Cost: a reading of the posterior and a change an answer, a fit a piece and visit. Source: definitions of the house; engine section 6.
 * Example: “more than expected” at 2026-03-01, and by the visit of 2026-06-01 the probability of that increase is 0.9: confirmed.
 */
export function answerOutcomes(analysis: PatientAnalysis, given: readonly StoredGiven[]): readonly AnswerOutcome[] {
  const between = rememberedChanges(analysis.policy);
  const ends = new Map<AnalysedPiece, FitEnd>();
  return given.flatMap(({ id, visit, verdicts, outlooks }) => [
    ...verdicts.flatMap((one) => verdictOutcome(analysis, id, visit, one, between) ?? []),
    ...outlooks.flatMap((one) => {
      const piece = analysis.pieces.find(({ piece: { piece: label } }) => label === one.piece);
      if (!piece || (one.outgrowDay === null && one.earlyDay === null)) return [];
      const on = limbOf(piece.piece);
      if (!on) return [];
      const end = ends.get(piece) ?? endOfFit(analysis, piece, between);
      ends.set(piece, end);
      return [{ given: id, day: visit.day, ...on, ...outlookOutcome(one, end, visit.day) }];
    }),
  ]);
}

function verdictOutcome(
  analysis: PatientAnalysis,
  given: string,
  visit: Visit,
  verdict: GivenVerdict,
  between: ChangeBetween,
): VerdictOutcome | undefined {
  const { limb, side, against, earlierDay, probability, verdict: word } = verdict;
  const of = analysis.limbs.find(({ series }) => series.limb === limb && series.side === side);
  const later = of?.visits.find(({ at }) => at.visit === visit);
  const earlier = of?.visits.find(({ at }) => at.visit.day === earlierDay && at !== later?.at);
  if (!of || !later || !earlier) return undefined;
  const back = lookBack(of.course, earlier.at, later.at);
  const limit = analysis.policy.alarmProbability;
  const says = back && (back.probability >= limit ? (back.larger ? 'more-than-expected' : 'less-than-expected') : undefined);
  const isSame = isAlarm(word) ? says === word : says === undefined;
  return {
    kind: 'verdict',
    ...{ given, day: visit.day, limb, side, against, word, probability },
    came: word === 'cannot-tell' ? 'no-claim' : !back ? 'open' : isSame ? 'confirmed' : 'contradicted',
    changed: back ? back.probability >= LIKELIER : null,
    miss: missOf(analysis, of, earlier, later, verdict, between),
  };
}

/**
 * By how much the change measured at the next visit missed what was given at this one, in hundredths of the SD of that difference.
 *
 * Compared are ln(girth next / girth earlier) of the cylinder of equal volume over the stretch both visits taped, less what body size leads one to expect of it, and the
 * change given, p ln R. p is the probability given, R and s the size given and its SD, V the variance of that measured change (reading, placing, tension, body); the SD of the difference
 * is √(p (s² + V/2 + (1 − p) ln² R) + (1 − p) V): with no change the errors of both ladders lie in it; with one the earlier ladder's is in s already.
 * Within 196 the 95 % range held. Neither the model's later view nor the other limb is in it. Shape: a limb, the earlier, the judged visit, its verdict; null
 * without a probability, with no next ladder, where something was noted in between (event, another phase, a piece first worn on the limb), or where
 * that ladder's zero or body is in doubt.
 * Source: moments of a mixture of two; errors of two ladders taken for alike. Example: p 0, V 0.0004 (SD 2 %), measured 3 %: ln 1.03 / 0.02, 148.
 */
function missOf(
  { record, policy }: PatientAnalysis,
  { visits, series }: AnalysedLimb,
  earlier: AnalysedVisit,
  later: AnalysedVisit,
  { probability, ratio, sd }: GivenVerdict,
  between: ChangeBetween,
): number | null {
  const next = visits.slice(visits.indexOf(later) + 1).find(({ at }) => !notCompared(later.at, at));
  if (!next || probability === null || ratio === null || sd === null) return null;
  const isBetween = (day: CalendarDay | null): boolean => day !== null && day > later.at.visit.day && day <= next.at.visit.day;
  const { limb, side } = series;
  const happened =
    (record.events ?? []).some(({ day }) => isBetween(day)) ||
    (record.phases ?? []).some(({ from }) => isBetween(from)) ||
    record.pieces.some((piece) => isCutFromLadderOf(piece, limb, side) && isBetween(piece.firstWorn));
  const doubted = [earlier, next].some(({ at }) => at.bodyInDoubt.length > 0 || at.sidesInDoubt);
  if (happened || doubted) return null;
  const change = between(earlier.at, next.at, limb);
  if (isNoAnswer(change) || change.body.modelSd === undefined || checkedChange(change, policy).shift?.finding) return null;
  const measured = Math.log(change.measured.girth.ratio / change.expectedGirthRatio);
  const variance = policy.errorScale * (ratioSd(change.measured.girth) ** 2 + change.body.modelSd ** 2);
  return missIn(measured, { probability, ratio, sd }, variance);
}

/** The miss in whole hundredths of its SD (formula: `missOf`). Example: 0.0296 measured, probability 0, variance 0.0004: 148. */
export function missIn(measured: number, given: { probability: number; ratio: number; sd: number }, variance: number): number {
  const { probability: p, sd } = given;
  const size = Math.log(given.ratio);
  const spread = p * (sd ** 2 + variance / 2 + (1 - p) * size ** 2) + (1 - p) * variance;
  return Math.round((100 * (measured - p * size)) / Math.sqrt(spread));
}

/** When the fit of a piece was found to have ended (null: not), and the last day its limb was measured while it was in use. */
export type FitEnd = { readonly day: CalendarDay | null; readonly seenUntil: CalendarDay };

/**
 * The day on which the fit of a piece was found to have ended: the first visit whose tightness or length has left its band, a let-out, or its end as outgrown.
 *
 * It is the day it was found, so a fit that ended between two visits counts as ended at the second. Let-outs before the first visit after the cut are no end.
 */
function endOfFit(analysis: PatientAnalysis, one: AnalysedPiece, between: ChangeBetween): FitEnd {
  const { policy, record, limbs } = analysis;
  const { piece } = one;
  const of = limbs.find(({ series }) => series.limb === piece.limb && series.side === piece.side);
  const series = of?.series;
  const own = policyOfPiece(policy, one.band);
  const inUse = (day: CalendarDay) => piece.retired === null || day <= piece.retired;
  const since = (series?.visits ?? []).map(({ visit }) => visit.day).filter((day) => day >= piece.cutFrom && inUse(day));
  const seenUntil = since.at(-1) ?? piece.cutFrom;
  const left = series?.visits.findIndex(({ visit }, index) => {
    if (visit.day <= piece.cutFrom || !inUse(visit.day)) return false;
    const asThen: Piece = { ...piece, alterations: (piece.alterations ?? []).filter(({ day }) => day <= visit.day) };
    const visits = series.visits.slice(0, index + 1);
    const fit = fitToday(asThen, { ...series, visits }, policy, between, (cut) => (of ? changedSince(of.course, cut) : 1));
    return !isNoAnswer(fit) && leftBand(fit, record, own);
  });
  const found = [
    left !== undefined && left >= 0 ? (series?.visits[left]?.visit.day ?? null) : null,
    (piece.alterations ?? []).find(({ kind }) => kind === 'let out')?.day ?? null,
    piece.retiredAs === 'outgrown' ? piece.retired : null,
  ].filter((day) => day !== null);
  return { day: found.sort()[0] ?? null, seenUntil };
}

/**
 * What came of two dates: when the fit was found to have ended against them, whether the early day was kept, and by how many days the outgrow day missed.
 *
 * A fit that did not end by the last measuring counts as *after* once the outgrow day has passed by then, else as *not yet*; the early day was kept as soon as a
 * measuring on or after it found the piece fitting. One that ended at the answer's own visit or before is counted as before the early day.
 * Shape: the dates given, the end of the fit, the day they were given of. Source: definition of the house.
 * Example: early 2026-05-01, outgrow 2026-07-01, found tight on 2026-06-10: between, early day kept, 21 days early.
 */
export function outlookOutcome(
  { piece, outgrowDay, earlyDay }: GivenOutlook,
  { day, seenUntil }: FitEnd,
  givenOf: CalendarDay,
): Omit<OutlookOutcome, 'given' | 'day' | 'limb' | 'side'> {
  const of = { kind: 'outlook', piece } as const;
  const late = seenUntil > givenOf ? seenUntil : givenOf;
  const by = day ?? late;
  const early = earlyDay ?? outgrowDay;
  const reached = (of: CalendarDay | null) => of !== null && by >= of;
  if (day === null)
    return { ...of, came: reached(outgrowDay) ? 'after' : 'not-yet', earlyKept: reached(early) ? true : null, daysOff: null };
  const came = !reached(early) ? 'before-early' : reached(outgrowDay) ? 'after' : 'between';
  return { ...of, came, earlyKept: reached(early), daysOff: outgrowDay === null ? null : daysBetween(outgrowDay, day) };
}
