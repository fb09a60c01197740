import type { AnalysedLimb, PatientAnalysis } from '../analysis/analyse-patient';
import { type ExcessGone, excessGone } from '../analysis/excess-gone';
import { type LimbExcess, limbExcess } from '../analysis/limb-excess';
import { distalLandmark, type LimbKind, limbInWords, otherSide, placeInWords, type Side } from '../ladder/limb';
import { isNoAnswer } from '../outcome';
import { pct, signedPct } from '../prompts/show-figures';
import type { LimbSide } from '../record/patient-record';
import type { SeriesVisit } from '../trend/series-visit';
import { type CalendarDay, showDay } from '../units/calendar-day';
import type { LengthUnit } from '../units/length';
import { showLength } from '../units/show-length';
import { showVolume } from '../units/volume';

/**
 * The difference between an affected limb and the healthy other one at a visit, in one sentence: ml, per cent, their errors, the stretch, the day.
 *
 * Says what was measured and not what it means.
 * Example: `The right arm is 312 ml larger than the left, give or take 74 ml: +14.1 % (± 3.4 %), over 4.0–40.0 cm above the wrist crease, 14 Oct 2026.`
 */
function excessSentence(
  excess: LimbExcess,
  { limb, side, unit, day }: { readonly limb: LimbKind; readonly side: Side; readonly unit: LengthUnit; readonly day: CalendarDay },
): string {
  const { differenceMl, differenceErrorMl, share, error, fromMm, toMm } = excess;
  const other = otherSide(side);
  const how = `${showVolume(Math.abs(differenceMl))} ${differenceMl < 0 ? 'smaller' : 'larger'}`;
  const stretch = `${showLength(fromMm, unit)}–${showLength(toMm, unit)}\u202f${unit} above the ${placeInWords(distalLandmark(limb))}`;
  return `The ${limbInWords(limb, side)} is ${how} than the ${other}, give or take ${showVolume(differenceErrorMl)}: ${signedPct(share)} (±\u202f${pct(error)}), over ${stretch}, ${showDay(day)}.`;
}

/**
 * How much of the phase's first difference is gone, by both published formulas, each named.
 *
 * Example: `The first difference, 5 Jan 2026: 70.0 % gone (right arm of the same day), 50.0 % gone (right arm as it was then).`
 */
export function goneSentence({ since, sameDay, fixed }: ExcessGone, { limb, side }: LimbSide, ofPhase = false): string {
  const other = limbInWords(limb, otherSide(side));
  const said = (share: number) => (share < 0 ? `grown by ${pct(share)}` : `${pct(share)} gone`);
  return `The first difference${ofPhase ? ' of the phase' : ''}, ${showDay(since)}: ${said(sameDay)} (${other} of the same day), ${said(fixed)} (${other} as it was then).`;
}

/**
 * Both for an affected limb at one of its visits; undefined where no healthy other limb was measured that day. How much is gone is left out
 * where it is not defined (`excessGone`).
 */
export function excessAt(analysis: PatientAnalysis, { series, affected }: AnalysedLimb, at: SeriesVisit): string | undefined {
  const excess = affected ? limbExcess(analysis, series, at.visit) : undefined;
  if (!excess || isNoAnswer(excess)) return undefined;
  const gone = excessGone(analysis, series, at.visit);
  const said = excessSentence(excess, { ...series, unit: at.ladder.unit, day: at.visit.day });
  return isNoAnswer(gone) ? said : `${said} ${goneSentence(gone, series, (analysis.record.phases ?? []).length > 0)}`;
}
