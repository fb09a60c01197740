import { normalReach } from '../statistics/normal';

/**
 * Range of a share of cases, by Wilson's score.
 *
 * (p̂ + z²/2n ± z·√(p̂(1 − p̂)/n + z²/4n²)) / (1 + z²/n). It stays inside 0 and 1 and says something even where nothing happened.
 * Shape: how many of how many, whole numbers; confidence as a share. Undefined with no case, or with more than all.
 * Source: Wilson 1927, J Am Stat Assoc 22:209. Example: 3 of 40 gives 2.58 to 19.86 %.
 */
export function proportionRange(
  some: number,
  all: number,
  confidence = 0.95,
): { readonly share: number; readonly low: number; readonly high: number } | undefined {
  if (!(all > 0) || some < 0 || some > all) return undefined;
  const z = normalReach(confidence);
  const share = some / all;
  const middle = share + z ** 2 / (2 * all);
  const reach = z * Math.sqrt((share * (1 - share)) / all + z ** 2 / (4 * all ** 2));
  const whole = 1 + z ** 2 / all;
  const [low, high] = [Math.max(0, (middle - reach) / whole), Math.min(1, (middle + reach) / whole)];
  // Where nothing or everything happened, one end is the share itself but for rounding.
  return { share, low: Math.min(low, share), high: Math.max(high, share) };
}
