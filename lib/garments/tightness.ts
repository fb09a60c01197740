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
