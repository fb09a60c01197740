import type { AnalysedLimb, PatientAnalysis } from '../analysis/analyse-patient';
import { type ExcessGone, excessGone } from '../analysis/excess-gone';
import { limbExcess } from '../analysis/limb-excess';
import { type UsualDifference, usualDifference } from '../analysis/usual-difference';
import { distalLandmark, limbInWords, otherSide, placeInWords, type Side } from '../ladder/limb';
import { isNoAnswer } from '../outcome';
import { pct, signedPct } from '../prompts/show-figures';
import type { LimbSide } from '../record/patient-record';
import type { SeriesVisit } from '../trend/series-visit';
import { showDay } from '../units/calendar-day';
import { showLength } from '../units/show-length';
import { showVolume } from '../units/volume';

/** What an affected limb has over the healthy other one at a visit, in the order in which it is read. */
export type ExcessWords = {
  /** `The right arm is 312 ml larger than the left` */
  readonly sentence: string;
  /** `give or take 74 ml: +14.1 % (± 3.4 %), 2,525 ml against 2,213 ml over 4.0–40.0 cm above the wrist crease of both, 14 Oct 2026.` */
  readonly figures: string;
  /** How much of the first difference is gone; undefined where it is not defined (`excessGone`). */
  readonly gone: string | undefined;
  /** What is usual of a dominant arm, and what the difference is beyond it; undefined for legs and where the hand is not known. */
  readonly usual: string | undefined;
};

/**
 * The difference between an affected limb and the healthy other one at a visit, in words: ml, per cent, their errors, the volumes that it is
 * the difference of with the one stretch of both, the day.
 *
 * Says what was measured and not what it means. Undefined where no healthy other limb was measured that day.
 */
export function excessInWords(analysis: PatientAnalysis, { series, affected }: AnalysedLimb, at: SeriesVisit): ExcessWords | undefined {
  const excess = affected ? limbExcess(analysis, series, at.visit) : undefined;
  if (!excess || isNoAnswer(excess)) return undefined;
  const { limb, side } = series;
  const { unit } = at.ladder;
  const gone = excessGone(analysis, series, at.visit);
  const { differenceMl, differenceErrorMl, share, error, fromMm, toMm, volumeMl, otherMl } = excess;
  const how = `${showVolume(Math.abs(differenceMl))} ${differenceMl < 0 ? 'smaller' : 'larger'}`;
  const stretch = `${showLength(fromMm, unit)}–${showLength(toMm, unit)}\u202f${unit} above the ${placeInWords(distalLandmark(limb))} of both`;
  const volumes = `${showVolume(volumeMl)} against ${showVolume(otherMl)}`;
  return {
    sentence: `The ${limbInWords(limb, side)} is ${how} than the ${otherSide(side)}`,
    figures: `give or take ${showVolume(differenceErrorMl)}: ${signedPct(share)} (±\u202f${pct(error)}), ${volumes} over ${stretch}, ${showDay(at.visit.day)}.`,
    gone: isNoAnswer(gone) ? undefined : goneSentence(gone, series, (analysis.record.phases ?? []).length > 0),
    usual: usualSentence(usualDifference(share, series, analysis.record.facts, analysis.policy), side),
  };
}

/** The same as running text: `The right arm is 312 ml larger than the left, give or take 74 ml: …`. */
export function excessAt(analysis: PatientAnalysis, limb: AnalysedLimb, at: SeriesVisit): string | undefined {
  const words = excessInWords(analysis, limb, at);
  return words && [`${words.sentence}, ${words.figures}`, words.usual, words.gone].filter(Boolean).join(' ');
}

/** Example: `The right arm is the dominant one, usually 1.1 % larger (Smoot 2014); beyond that the difference is +8.8 %.` */
function usualSentence(found: UsualDifference | undefined, side: Side): string | undefined {
  if (!found) return undefined;
  const { affectedIsDominant, usual, beyond } = found;
  const dominant = affectedIsDominant ? side : otherSide(side);
  const how = affectedIsDominant ? 'larger' : 'smaller than it';
  const which = affectedIsDominant
    ? `The ${dominant} arm is the dominant one, usually`
    : `The ${dominant} arm is the dominant one, the other usually`;
  return `${which} ${pct(Math.abs(usual))} ${how} (Smoot 2014); beyond that the difference is ${signedPct(beyond)}. Nothing is taken off the figures above.`;
}

/**
 * How much of the phase's first difference is gone, by both published formulas, each named; that it cannot be said where the error is as large as
 * the difference itself: then nothing gone and all of it gone cannot be told apart.
 *
 * Example: `The first difference, 5 Jan 2026: 70.0 % gone, give or take 28.4 % (right arm of the same day), 50.0 % gone (right arm as it was then).`
 */
export function goneSentence({ since, sameDay, sameDayError, fixed }: ExcessGone, { limb, side }: LimbSide, ofPhase = false): string {
  const other = limbInWords(limb, otherSide(side));
  const first = `The first difference${ofPhase ? ' of the phase' : ''}, ${showDay(since)}`;
  if (sameDayError >= 1) return `${first}, is too small beside its error to say how much of it is gone.`;
  const said = (share: number) => (share < 0 ? `grown by ${pct(share)}` : `${pct(share)} gone`);
  return `${first}: ${said(sameDay)}, give or take ${pct(sameDayError)} (${other} of the same day), ${said(fixed)} (${other} as it was then).`;
}
