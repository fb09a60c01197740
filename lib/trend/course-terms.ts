import type { CourseTerms } from '../course-model/course';

/**
 * What the joint model takes for granted beside the tape, as SDs of log girth (drifts: after one year). Clinic defaults.
 *
 * Drift: Berkeley calf, rms of the weight–height rule 0.9, 1.5 and 2.0 % at 6, 12 and 24 months, reading error in it (`expected-girth`); most of it
 * common to both limbs, the rest each limb's and each part's own. Exponents: the tables of Snyder 1977 differ between boys and girls by 0.02–0.06,
 * persons by more (from memory of the spread of body shapes). Step: changes that matter are a few per cent of girth.
 */
const COMMON_DRIFT_SD = 0.009;
const OWN_DRIFT_SD = 0.0055;
const PART_DRIFT_SD = 0.004;
const LN_WEIGHT_EXPONENT_SD = 0.08;
const LN_HEIGHT_EXPONENT_SD = 0.12;
const STEP_SD = 0.05;
/** One limb in five had a change at some visit: prior odds of a step. */
export const STEP_ODDS = 1 / 4;
/** SD of girth from one day to another beside the tape. Source: what is left of an SEM of 1.2–1.4 % of leg volume (Lymphat Res Biol 2022). */
export const DAY_SD = 0.002;

/**
 * The terms for limbs of so many parts (the judged one first), with lasting habits of so much variance, at a clinic's scale of error.
 *
 * Example: a scale of 2.06: every variance of error is 2.06 times as large, that of a step stays.
 */
export function courseTerms(parts: readonly number[], habits: readonly number[], scale: number): CourseTerms {
  return {
    parts,
    habits: habits.map((variance) => scale * variance),
    lnWeightVariance: scale * LN_WEIGHT_EXPONENT_SD ** 2,
    lnHeightVariance: scale * LN_HEIGHT_EXPONENT_SD ** 2,
    commonDrift: scale * COMMON_DRIFT_SD ** 2,
    ownDrift: scale * OWN_DRIFT_SD ** 2,
    partDrift: scale * PART_DRIFT_SD ** 2,
    stepVariance: STEP_SD ** 2,
    stepOdds: STEP_ODDS,
    mostSteps: 3,
    kept: 8,
  };
}
