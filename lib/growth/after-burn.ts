import type { Policy } from '../limits/policy';
import type { WorkFacts } from '../record/work-facts';
import { addMonths, type CalendarDay, daysBetween } from '../units/calendar-day';

/**
 * How much further a child's z-score may drift after a large burn than other children's do, as one SD in z units; 0 for everybody else.
 *
 * Formula: `burnGrowthZ` × the share of a year that the stretch has in common with the years after the injury, at most once. The middle of an
 * outlook is not moved: children differ, and the published fall is the mean of groups.
 * Refuses nothing; without a day of injury or a burnt area nothing is known and nothing widened.
 * Shape: facts, the day of the figure, the later day, the policy. Source: from 40 % of the surface near arrest of growth in the first year, close
 * to normal by the third (Rutan & Herndon 1990, Arch Surg 125:392, n 80); from 50 % height z falls by 0.50 to 0.76 (J Burn Care Res 2007;28:262,
 * n 159). Both from their abstracts. That the larger fall is one SD, and holds for weight too: clinic default.
 * Example: 45 % burnt 100 days ago, half a year (183 days) ahead: 0.76 × 183 / 365.25 = 0.381.
 */
export function burnDriftZ(facts: WorkFacts | null | undefined, from: CalendarDay, to: CalendarDay, policy: Policy): number {
  if (!facts?.injured || facts.burntPct === null || facts.burntPct < policy.burnGrowthPct) return 0;
  const end = addMonths(facts.injured, Math.round(12 * policy.burnGrowthYears));
  const begins = from > facts.injured ? from : facts.injured;
  const days = daysBetween(begins, to < end ? to : end);
  return policy.burnGrowthZ * Math.min(Math.max(days, 0) / 365.25, 1);
}
