import type { StepKind } from '../course-model/course';
import type { LimbKind, Side } from '../ladder/limb';
import { isNoAnswer } from '../outcome';
import type { Visit } from '../record/patient-record';
import type { GivenAgainst } from '../service/what-came';
import type { JudgedChange } from '../trend/judged-change';
import type { Verdict } from '../trend/verdict';
import type { CalendarDay } from '../units/calendar-day';
import type { PatientAnalysis } from './analyse-patient';

/** Raised when a verdict or a date changes in meaning, so that what was given says by which engine. */
export const ENGINE_VERSION = 2;

/** A verdict as it was given on the day it was first worked out, from what was known then. */
export type GivenVerdict = {
  readonly limb: LimbKind;
  readonly side: Side;
  readonly against: GivenAgainst;
  readonly earlierDay: CalendarDay;
  readonly verdict: Verdict;
  /** Probability of a change beyond what the body explains; null where nothing could be expected. */
  readonly probability: number | null;
  /** Girth beyond what is expected, later / earlier, and the SD of its logarithm; null with the probability. */
  readonly ratio: number | null;
  readonly sd: number | null;
  readonly part: StepKind | null;
  readonly since: CalendarDay | null;
};

/** The dates that were given for a piece when its limb was last measured. */
export type GivenOutlook = {
  readonly piece: string;
  /** The day it is outgrown or too loose, and the early one; null where no such day was seen. */
  readonly outgrowDay: CalendarDay | null;
  readonly earlyDay: CalendarDay | null;
};

/** What is given of a visit, to be stored once as given. */
export type GivenAnswers = {
  readonly visit: Visit;
  readonly verdicts: readonly GivenVerdict[];
  readonly outlooks: readonly GivenOutlook[];
};

/**
 * The answers that stand today and hang on each limb's newest visit: its verdicts, and the dates of the pieces of that limb in use.
 *
 * Earlier visits have theirs already, or came into the record later than one that was judged: nothing was said of them on their day, and nothing is made up.
 * Shape: an analysis of today; one entry a newest visit. What has no answer is left out.
 */
export function answersToGive(analysis: PatientAnalysis): readonly GivenAnswers[] {
  const given = new Map<Visit, { verdicts: GivenVerdict[]; outlooks: GivenOutlook[] }>();
  for (const { series, visits } of analysis.limbs) {
    const newest = visits.at(-1);
    if (!newest) continue;
    const { limb, side } = series;
    const of = given.get(newest.at.visit) ?? { verdicts: [], outlooks: [] };
    given.set(newest.at.visit, of);
    const judgements = [
      ['baseline', newest.sinceBaseline],
      ['last', newest.sinceLast],
    ] as const;
    for (const [against, judged] of judgements)
      if (judged && !isNoAnswer(judged)) of.verdicts.push({ limb, side, against, ...verdictOf(judged) });
    for (const { piece, inUse, outgrow } of analysis.pieces)
      if (inUse && piece.limb === limb && piece.side === side && !isNoAnswer(outgrow))
        of.outlooks.push({ piece: piece.piece, outgrowDay: outgrow.day, earlyDay: outgrow.earlyDay });
  }
  return [...given].map(([visit, answers]) => ({ visit, ...answers }));
}

function verdictOf({ change, verdict, probability, explained, found }: JudgedChange): Omit<GivenVerdict, 'limb' | 'side' | 'against'> {
  return {
    earlierDay: change.earlier.visit.day,
    verdict,
    probability: probability ?? null,
    ratio: explained?.unexplainedRatio ?? null,
    sd: explained?.sd ?? null,
    part: found?.part ?? null,
    since: found?.since ?? null,
  };
}
