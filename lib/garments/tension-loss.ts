import type { Policy } from '../limits/policy';
import type { ReviewedRecord } from '../record/next-visit';
import { REACH_95 } from '../statistics/reach-95';

/** What a piece is made of, as far as its wear goes; `unknown` takes the range of both. */
export type FabricKind = 'scar garment' | 'flat knit' | 'unknown';

/** How fast a fabric loses tension: a of T/T₀ = exp(−a √(worn days / 90)), normal with a middle and an SD; where it comes from. */
export type TensionLoss = {
  readonly fabric: FabricKind;
  readonly rate: number;
  readonly rateSd: number;
  /** Pairs of readings that narrowed it. */
  readonly pairs: number;
};

/** Two readings of one piece at one site and posture: worn days at each, ln(P₁/P₀) less what the girth explains, and its variance. */
export type ReadingPair = { readonly fromDays: number; readonly toDays: number; readonly lnRatio: number; readonly variance: number };

/** Worn days that the published losses are of. */
const MONTHS_THREE = 90;
const GROUPS: Readonly<Record<string, FabricKind>> = { lymphoedema: 'flat knit', lipoedema: 'flat knit', venous: 'flat knit' };

/**
 * The fabric a piece is taken to be of, by why it is worn; unknown where that is not written down. Source: common practice.
 * Example: a group that ends with `scar` → `scar garment`.
 */
export function fabricOf({ diagnosisGroup = '' }: ReviewedRecord): FabricKind {
  return diagnosisGroup.endsWith('scar') ? 'scar garment' : (GROUPS[diagnosisGroup] ?? 'unknown');
}

/**
 * Loss of tension by worn days, as published, as a range: a normal between the clinic's least and most loss in 90 worn days (95 %).
 *
 * T/T₀ = exp(−a √(d/90)), a from −ln(1 − least) to −ln(1 − most). The square root fits both published courses: class II 29.3, 27.6, 26.5 mmHg at
 * 0, 1, 3 months and class III 47.5, 44.2, 41.3 have powers of time of 0.47 and 0.60. One wash a worn day (common practice), so washing is in the
 * same clock. Published for grown people; for a child no loss is published, the same range is taken and said to be of adults.
 * Shape: a fabric and the policy; a per √(90 days). Source: J Burn Care Res 2020 and Veraart, in `FABRIC_LIMITS`.
 * Example: scar garment 15–50 %: a = 0.43 ± 0.14, 35 % lost at day 90, 22 % at day 30.
 */
export function publishedLoss(fabric: FabricKind, policy: Policy): TensionLoss {
  const lowPct = fabric === 'scar garment' ? policy.scarLossLowPct : policy.flatKnitLossLowPct;
  const highPct = fabric === 'flat knit' ? policy.flatKnitLossHighPct : policy.scarLossHighPct;
  const [low, high] = [-Math.log(1 - lowPct / 100), -Math.log(1 - highPct / 100)] as const;
  return { fabric, rate: (low + high) / 2, rateSd: (high - low) / (2 * REACH_95), pairs: 0 };
}

/**
 * The same loss narrowed by pairs of pressure readings: lnRatio = −a x + error, x = √(d₁/90) − √(d₀/90), normal with normal prior.
 *
 * Pairs of no wear between them say nothing. Shape: a loss and pairs; a loss. Source: conjugate normal (closed form).
 * Example: prior 0.43 ± 0.14, one pair from day 0 to 90 with ln ratio −0.20 and variance 0.02: 0.43 → 0.32 ± 0.10.
 */
export function narrowedLoss(prior: TensionLoss, pairs: readonly ReadingPair[]): TensionLoss {
  let information = 1 / prior.rateSd ** 2;
  let weighted = prior.rate / prior.rateSd ** 2;
  let used = 0;
  for (const { fromDays, toDays, lnRatio, variance } of pairs) {
    const x = clock(toDays) - clock(fromDays);
    if (!(x > 0)) continue;
    information += (x * x) / variance;
    weighted -= (x * lnRatio) / variance;
    used += 1;
  }
  return { ...prior, rate: weighted / information, rateSd: Math.sqrt(1 / information), pairs: prior.pairs + used };
}

/**
 * Share of fitted tension that is left after so many worn days, with the loss so many SDs out (positive: more lost). Never above 1.
 *
 * Example: scar garment as published, day 90: 0.65; at +1.96 SD 0.50, at −1.96 SD 0.85.
 */
export function tensionLeft(loss: TensionLoss, wornDays: number, sds = 0): number {
  return Math.exp(-Math.max(0, loss.rate + sds * loss.rateSd) * clock(wornDays));
}

function clock(days: number): number {
  return Math.sqrt(Math.max(days, 0) / MONTHS_THREE);
}
