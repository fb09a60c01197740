import type { Policy } from '../limits/policy';
import type { NoAnswer } from '../outcome';
import { type ChangeBetween, type LimbChange, limbChange } from './limb-change';
import type { SeriesVisit } from './series-visit';

/**
 * `limbChange` with the clinic's policy, each pair of visits worked out once however often it is asked for.
 *
 * Verdicts, trend, fit and outlook of one patient all compare with the same few ladders. The memory lives as long as the function.
 * Example: the verdict and the trend of visit 7 against the baseline are one calculation.
 */
export function rememberedChanges(policy: Policy): ChangeBetween {
  const known = new Map<SeriesVisit, Map<SeriesVisit, LimbChange | NoAnswer>>();
  return (earlier, later, limb) => {
    const fromEarlier = known.get(earlier) ?? new Map<SeriesVisit, LimbChange | NoAnswer>();
    known.set(earlier, fromEarlier);
    const remembered = fromEarlier.get(later);
    if (remembered) return remembered;
    const change = limbChange(earlier, later, limb, policy);
    fromEarlier.set(later, change);
    return change;
  };
}
