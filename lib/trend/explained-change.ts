import type { Ratio } from './measured-change';

/** What is common to both limbs between two visits beside tape tension: how well the body model fits, and posture or time of day. */
export type CommonDoubt = {
  /** SD of the body model; undefined when it explains nothing. */
  readonly modelSd: number | undefined;
  /** SD of girth from another posture or time of day; 0 when both are the same. */
  readonly confoundSd: number;
};

/** Girth change with what explains it taken out. Ratios; SDs of logarithms. */
export type ExplainedChange = {
  readonly expectedRatio: number;
  readonly unexplainedRatio: number;
  readonly sd: number;
  /** How much of the other limb's surprise was taken as common, 0 to 1; 1 is limb against limb alone. */
  readonly otherLimbShare: number;
};

/** Two healthy limbs of one person drift apart by about this share of girth between visits. Clinic default. */
const LIMBS_DRIFT_SD = 0.005;
/** Variance of an expectation that does not exist: large against any tape. */
const NOTHING_KNOWN = 1;

/**
 * Girth change that neither body size nor the other limb explains, by least squares.
 *
 * Limb: a = δ + e + m + t + ε_A; healthy other limb of the same two days: u = e + m + t + ε_U (logarithms; e expected, m the error of
 * the body model, t tape tension and posture, common to both). Then δ = a − e − c (u − e) with c = S / (S + var ε_U + drift²),
 * S = var m + var t, and var δ = var ε_A + S (1 − c). With S large this is limb against limb (relative volume change,
 * A₂U₁ / U₂A₁, Ancukiewicz 2011); with no other limb, c = 0, it is weight and height alone.
 * Undefined when neither body size nor another limb can explain anything.
 * Source: generalised least squares (Gauss–Markov); order of trust as in engine section 5.
 * Example: a 1.05, expected 1.02, no other limb: unexplained 1.0294.
 */
export function explainedChange(
  limb: Ratio,
  expectedRatio: number,
  doubt: CommonDoubt,
  other?: { girth: Ratio; expectedRatio: number },
): ExplainedChange | undefined {
  if (doubt.modelSd === undefined && !other) return undefined;
  const model = doubt.modelSd === undefined ? NOTHING_KNOWN : doubt.modelSd ** 2;
  const common = model + limb.tensionVariance + doubt.confoundSd ** 2;
  const share = other ? common / (common + other.girth.ownVariance + LIMBS_DRIFT_SD ** 2) : 0;
  const surprise = other ? Math.log(other.girth.ratio / other.expectedRatio) : 0;
  const expected = expectedRatio * Math.exp(share * surprise);
  return {
    expectedRatio: expected,
    unexplainedRatio: limb.ratio / expected,
    sd: Math.sqrt(limb.ownVariance + common * (1 - share)),
    otherLimbShare: share,
  };
}
