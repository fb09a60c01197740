import type { Policy } from '../limits/policy';
import { REACH_95 } from '../statistics/reach-95';

/**
 * How tight a piece sits against how tight it was fitted, for a fabric whose tension rises in proportion to strain:
 * P / P₀ = (1/G − 1/C) / (1/G − 1/C₀); 0 when the limb no longer fills it.
 *
 * After a let-out the piece is wider than it was fitted: P / P₀ = (1/G′ − 1/C) / (1/G − 1/C₀), G′ the relaxed girth now, G as fitted.
 * Shape: relaxed girth G (or G′), girth now C, girth fitted C₀ and relaxed girth as fitted in mm, G < C₀; a ratio without unit. Not a
 * pressure: no mmHg is claimed.
 * Source: thin sleeve on a cylinder, p = 2πτ/C (Laplace), τ = k ε.
 * Example: C₀ 200 mm, r 10 % (G 180 mm), C 206 mm (+3 %): 1.262; at r 20 %: 1.117; at r 10 % let out by 5.4 mm: 0.971.
 */
export function relativeTightness(relaxedMm: number, nowMm: number, fittedMm: number, relaxedFittedMm = relaxedMm): number {
  return Math.max((1 / relaxedMm - 1 / nowMm) / (1 / relaxedFittedMm - 1 / fittedMm), 0);
}

/**
 * How fast tightness changes with girth: d(P/P₀) / d ln C = (1/C) / (1/G − 1/C₀).
 *
 * Shape as `relativeTightness`; per unit of ln girth. Example: at fitting with r 10 %: 9 (a girth 1 % larger is 9 % tighter).
 */
export function tightnessSlope(relaxedMm: number, nowMm: number, fittedMm: number): number {
  return 1 / nowMm / (1 / relaxedMm - 1 / fittedMm);
}

/**
 * SD of tightness because tension may rise as strain to a power n other than 1: P/P₀ = (ε/ε₀)ⁿ C₀/C, so d(P/P₀)/dn = (P/P₀) ln(ε/ε₀).
 *
 * The clinic's range of n (0.6–1.5) is read as 95 % of it; the middle figure stays that of n = 1. 0 at the fitting, where ε = ε₀, and where the
 * limb no longer fills the piece. Shape as `relativeTightness`. Source: power law of tension, τ = k εⁿ; range `fabricExponentLow`, `fabricExponentHigh`.
 * Example: C₀ 200 mm, r 10 %, C 206 mm: ε/ε₀ = 1.30, P/P₀ 1.262, SD = 1.262 × 0.262 × 0.23 = 0.076.
 */
export function exponentSd(relaxedMm: number, nowMm: number, fittedMm: number, relaxedFittedMm: number, policy: Policy): number {
  if (nowMm <= relaxedMm) return 0;
  const strain = (nowMm / relaxedMm - 1) / (fittedMm / relaxedFittedMm - 1);
  const sd = (policy.fabricExponentHigh - policy.fabricExponentLow) / (2 * REACH_95);
  return relativeTightness(relaxedMm, nowMm, fittedMm, relaxedFittedMm) * Math.abs(Math.log(strain)) * sd;
}
