import type { ChangeReading } from '../course-model/read-change';

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

/** What a verdict weighs. */
export type VerdictInput = {
  readonly volumeRatio: number;
  readonly expectedVolumeRatio: number;
  /** Share of volume below which two visits cannot be told apart. */
  readonly smallestRealChange: number;
  /** What the joint model says with every doubt in; undefined where nothing explains a change. */
  readonly reading: ChangeReading | undefined;
  /** The same with what another measurer, posture or hour brings left out; undefined where none differed. */
  readonly strict: () => ChangeReading | undefined;
  /** Probability from which on a change is said (`alarmProbability` of the policy). */
  readonly limit: number;
};

/**
 * One of five verdicts on a change.
 *
 * More or less than expected: the probability of a change that way, of the whole limb or of one part, is above the clinic's limit with every
 * doubt in. Cannot tell: it is so only with the difference of measurer, posture or hour left out, or nothing explains a change. As expected: the
 * volume change is real and growth or weight leads one to expect at least half of it. Otherwise no clear change.
 * Shape: ratios and shares without unit. Source: engine section 6; clinic default for the limit.
 * Example: volume +6.5 %, expected +6.4 %, smallest real change 5.7 %, probability of a change 0.04: as expected.
 */
export function judge(input: VerdictInput): Verdict {
  const { reading, volumeRatio, smallestRealChange } = input;
  const change = volumeRatio - 1;
  const real = Math.abs(change) > smallestRealChange;
  if (!reading) return real ? 'cannot-tell' : 'no-clear-change';
  const beyond = ({ up, down }: ChangeReading): boolean => Math.max(up, down) > input.limit;
  if (beyond(reading)) return reading.up > reading.down ? 'more-than-expected' : 'less-than-expected';
  const strict = input.strict();
  if (strict && beyond(strict)) return 'cannot-tell';
  const expected = input.expectedVolumeRatio - 1;
  const explains = expected * change > 0 && Math.abs(expected) >= Math.abs(change) / 2;
  return real && explains ? 'as-expected' : 'no-clear-change';
}
