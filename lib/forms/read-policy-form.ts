import { limitShown } from '../limits/limit-in-words';
import { LIMITS, type LimitName } from '../limits/limits';
import { DEFAULT_POLICY, type Policy, policySchema, RANGE_LIMITS } from '../limits/policy';

/** One sentence for each box that cannot be read. */
export type PolicyErrors = Partial<Record<LimitName | 'growthReference' | 'reviewDays', string>>;

/** The clinic's own figures, only where they differ from the defaults. */
export type OwnPolicy = Partial<Policy>;

/** Limits of one scale, each below the next one, or one place would say two things of one figure. */
const IN_ORDER: readonly (readonly LimitName[])[] = [
  ['abpiStop', 'abpiLow', 'abpiHigh'],
  ['toeStopMmHg', 'toeLowMmHg'],
  ['lightPressureMmHg', 'strongPressureMmHg'],
  ['heatAskPct', 'heatPlanPct'],
  ['weightLookPct', 'weightRefitPct'],
  ...RANGE_LIMITS,
  ['excessMinimalPct', 'excessModeratePct', 'excessSeverePct'],
];

/**
 * The clinic's own limits from what was typed; an empty box, or one as it would be unset, goes back to what stands without it.
 *
 * Refuses by name what is not a figure above 0, a working band that does not hold 1, and limits of one scale that are not in their order. Shape: box name to text; own figures only.
 */
export function readPolicyForm(
  typed: Readonly<Record<string, string>>,
  unset: Policy = DEFAULT_POLICY,
): { kind: 'read'; own: OwnPolicy } | { kind: 'refused'; errors: PolicyErrors } {
  const errors: PolicyErrors = {};
  const own: Record<string, unknown> = {};
  for (const name of Object.keys(LIMITS) as LimitName[]) {
    const text = (typed[name] ?? '').trim().replace(',', '.');
    if (text === '') continue;
    const value = /^\d+(\.\d+)?$/.test(text) ? Number(text) / (LIMITS[name].unit === 'share' ? 100 : 1) : Number.NaN;
    if (!(value > 0)) errors[name] = 'Type a figure above 0, or leave it empty for the default.';
    else if (Math.abs(value - unset[name]) > 1e-12) own[name] = value;
  }
  const low = (own.bandLow as number | undefined) ?? LIMITS.bandLow.value;
  const high = (own.bandHigh as number | undefined) ?? LIMITS.bandHigh.value;
  if (low >= 1) errors.bandLow = 'The lower edge must lie below 1, the fitting itself.';
  if (high <= 1) errors.bandHigh = 'The upper edge must lie above 1, the fitting itself.';
  const inForce = (name: LimitName) => (own[name] as number | undefined) ?? unset[name];
  for (const scale of IN_ORDER)
    for (const [index, name] of scale.entries()) {
      const below = scale[index - 1];
      if (below === undefined || inForce(below) < inForce(name) || errors[below] || errors[name]) continue;
      errors[own[name] === undefined ? below : name] =
        `This limit must be below another: “${LIMITS[below].does}” (${limitShown(below, inForce(below))}) below “${LIMITS[name].does}” (${limitShown(name, inForce(name))}).`;
    }
  if (typed.growthReference && typed.growthReference !== DEFAULT_POLICY.growthReference) own.growthReference = typed.growthReference;
  const review = DEFAULT_POLICY.reviewDays.map((row, index) => ({
    underYears: row.underYears,
    days: Number((typed[`review-${index}`] ?? '').trim() || row.days),
  }));
  if (review.some((row) => !Number.isInteger(row.days) || row.days < 1)) errors.reviewDays = 'Review intervals are whole days, 1 or more.';
  else if (review.some((row, index) => row.days !== DEFAULT_POLICY.reviewDays[index]?.days)) own.reviewDays = review;
  if (Object.keys(errors).length > 0) return { kind: 'refused', errors };
  const checked = policySchema.safeParse(own);
  if (!checked.success) return { kind: 'refused', errors: { growthReference: 'Choose one of the growth tables.' } };
  return { kind: 'read', own: checked.data as OwnPolicy };
}
