import type { ExplainedChange } from './explained-change';

/** The judgement on a change of one limb between two visits. */
export type Verdict = 'no-clear-change' | 'as-expected' | 'more-than-expected' | 'less-than-expected' | 'cannot-tell';

/** Why no verdict can be given; each has its sentence in `summary`. */
export type Confounder =
  | 'moved-zero'
  | 'posture'
  | 'time-of-day'
  | 'other-measurer'
  | 'missing-height'
  | 'little-shared-span'
  | 'doubtful-rungs'
  | 'doubtful-body'
  | 'sides-swapped'
  | 'other-unit'
  | 'landmarks-disagree';

/** What a verdict weighs. `strict` leaves out what a different measurer, posture or hour adds to the error; `full` has it in. */
export type VerdictInput = {
  readonly volumeRatio: number;
  readonly expectedVolumeRatio: number;
  /** Share of volume below which two visits cannot be told apart. */
  readonly smallestRealChange: number;
  readonly strict: ExplainedChange | undefined;
  readonly full: ExplainedChange | undefined;
  /** What differed between the visits beside the limb. */
  readonly confounders: readonly Confounder[];
  /** How many SDs of unexplained change make it more or less than expected (`verdictSds` of the policy). */
  readonly sds: number;
};

/**
 * One of five verdicts on a change.
 *
 * More or less than expected: the unexplained girth change exceeds the clinic's limit (2.2 SD) with every doubt in. Cannot tell: it does so only
 * with the difference of measurer, posture or hour left out, or nothing explains a change. As expected: the volume change is real and
 * growth or weight leads one to expect at least half of it. Otherwise no clear change.
 * Shape: ratios and shares without unit. Source: engine section 6; clinic default for the limits.
 * Example: volume +6.5 %, expected +6.4 %, smallest real change 5.7 %, unexplained −0.1 % ± 1.8 %: as expected.
 */
export function judge(input: VerdictInput): Verdict {
  const { strict, full, volumeRatio, smallestRealChange } = input;
  const change = volumeRatio - 1;
  const real = Math.abs(change) > smallestRealChange;
  if (!strict || !full) return real ? 'cannot-tell' : 'no-clear-change';
  const beyond = (explained: ExplainedChange): boolean => Math.abs(Math.log(explained.unexplainedRatio)) > input.sds * explained.sd;
  if (beyond(full)) return full.unexplainedRatio > 1 ? 'more-than-expected' : 'less-than-expected';
  if (beyond(strict) && input.confounders.length > 0) return 'cannot-tell';
  const expected = input.expectedVolumeRatio - 1;
  const explains = expected * change > 0 && Math.abs(expected) >= Math.abs(change) / 2;
  return real && explains ? 'as-expected' : 'no-clear-change';
}
