import type { ReductionConvention } from '../record/patient-record';

/**
 * Girth of the garment off the body: C (1 − r) or C / (1 + r), by the convention that was ordered.
 *
 * Shape: limb girth in mm, reduction in per cent (0 < r < 100); mm out. The two conventions differ: 20 % of the second is 16.7 % of the first.
 * Source: both in use for pressure garments (common practice); algebra of strain ε = r / (1 − r) and ε = r.
 * Example: 200 mm at 15 %: 170 mm by `C(1-r)`, 173.9 mm by `C/(1+r)`.
 */
export function relaxedGirth(limbGirthMm: number, reductionPct: number, convention: ReductionConvention): number {
  const reduction = reductionPct / 100;
  return convention === 'C(1-r)' ? limbGirthMm * (1 - reduction) : limbGirthMm / (1 + reduction);
}
