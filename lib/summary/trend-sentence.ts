import { isNoAnswer, type NoAnswer } from '../outcome';
import { signedPct } from '../prompts/show-figures';
import type { LimbTrend } from '../trend/limb-trend';
import { showDay } from '../units/calendar-day';

/**
 * A limb's trend as one sentence with its interval, or why there is none.
 *
 * Four or five visits give a possible trend only; an interval that holds 0 is no clear trend.
 * Example: "No clear trend: volume +1.2 % a year (−0.8 to +3.1 %) over 7 visits since 3 Mar 2026."
 */
export function trendSentence(trend: LimbTrend | NoAnswer): string {
  if (isNoAnswer(trend)) return trend.noAnswer;
  const what = trend.of === 'volume' ? 'volume' : 'cross-section beyond what growth and weight explain';
  const figures = `${what} ${signedPct(trend.slopePerYear)} a year (${signedPct(trend.low)} to ${signedPct(trend.high)}) over ${trend.visits} visits since ${showDay(trend.from)}`;
  const clear = trend.low > 0 || trend.high < 0;
  if (!clear) return `No clear trend: ${figures}.`;
  return `${trend.possible ? 'Possible trend' : 'Trend'}: ${figures}.`;
}
