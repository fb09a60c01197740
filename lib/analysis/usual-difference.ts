import type { Side } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import type { WorkFacts } from '../record/work-facts';

/** What is usual between a dominant arm and the other, and what is left of a difference with it taken off. Shares of the other limb. */
export type UsualDifference = { readonly affectedIsDominant: boolean; readonly usual: number; readonly beyond: number };

/**
 * The usual difference of a dominant arm, beside an excess: never taken off it unsaid.
 *
 * Formula: expected A/U = 1 + d for a dominant affected arm, 1 / (1 + d) for the other; beyond = (1 + share) / expected − 1.
 * Undefined for legs (published figures contradict each other: 4.5 % by tape, none by bioimpedance), where the hand is not known or both are used
 * alike. Shape: share of the excess, limb and side, facts, policy. Source: d = 1.12 %, Smoot 2014, Lymphat Res Biol 12:189, n 397.
 * Example: +10 % of a dominant arm: 1.10 / 1.0112 − 1 = +8.78 % beyond the usual; of the other arm 1.10 × 1.0112 − 1 = +11.23 %.
 */
export function usualDifference(
  share: number,
  { limb, side }: { readonly limb: string; readonly side: Side },
  facts: WorkFacts | null | undefined,
  policy: Policy,
): UsualDifference | undefined {
  const hand = facts?.dominantHand;
  if (limb !== 'arm' || !hand || hand === 'both') return undefined;
  const affectedIsDominant = hand === side;
  const ratio = 1 + policy.dominantArmPct / 100;
  const expected = affectedIsDominant ? ratio : 1 / ratio;
  return { affectedIsDominant, usual: expected - 1, beyond: (1 + share) / expected - 1 };
}
