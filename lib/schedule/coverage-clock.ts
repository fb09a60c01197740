import type { CoverageLine, CoverageRule } from '../record/coverage';
import type { OrderReason } from '../record/order';
import { addMonths, type CalendarDay } from '../units/calendar-day';

/** One piece handed out: when, and whether it came under an exception, which the clock does not count. */
export type Issued = { readonly day: CalendarDay; readonly exception: boolean };

/** Where a payer's clock stands for one limb and use. */
export type CoverageClock = {
  readonly line: CoverageLine;
  /** First day of the period that holds today. */
  readonly from: CalendarDay;
  readonly used: number;
  readonly left: number;
  /** First day on which one more piece is covered; null while some are left. */
  readonly opensOn: CalendarDay | null;
};

/**
 * The clock of one line of a rule on a day.
 *
 * Fixed: periods of so many months one after another from the first day; what was used in the present one counts, and it opens again with
 * the next. Rolling: a piece counts from the day it was handed out until so many months later, exclusive; the clock opens when the oldest
 * that still binds has left. Months run to the same day of the month, or to its last day where it has none.
 * Shape: a line, pieces handed out for one limb and use, the patient's first day under the rule, today. A piece before the first day or
 * under an exception does not count. Source: the rule's own; the reading of month ends is common practice.
 * Example: 3 in 6 months, handed out on 10 Jan, 10 Jan and 5 Mar 2026: on 20 Mar none is left and the next is covered from 10 Jul.
 */
export function coverageClock(line: CoverageLine, issued: readonly Issued[], since: CalendarDay, today: CalendarDay): CoverageClock {
  const counted = issued
    .filter((one) => !one.exception && one.day >= since && one.day <= today)
    .map((one) => one.day)
    .sort();
  return line.clock === 'fixed' ? fixedClock(line, counted, since, today) : rollingClock(line, counted, since, today);
}

function fixedClock(line: CoverageLine, counted: readonly CalendarDay[], since: CalendarDay, today: CalendarDay): CoverageClock {
  let period = 0;
  while (addMonths(since, (period + 1) * line.months) <= today) period++;
  const from = addMonths(since, period * line.months);
  const used = counted.filter((day) => day >= from).length;
  const left = Math.max(line.quantity - used, 0);
  return { line, from, used, left, opensOn: left > 0 ? null : addMonths(since, (period + 1) * line.months) };
}

function rollingClock(line: CoverageLine, counted: readonly CalendarDay[], since: CalendarDay, today: CalendarDay): CoverageClock {
  const binding = counted.filter((day) => addMonths(day, line.months) > today);
  const left = Math.max(line.quantity - binding.length, 0);
  const leaves = binding[binding.length - line.quantity];
  return {
    line,
    from: binding[0] ?? since,
    used: binding.length,
    left,
    opensOn: leaves === undefined ? null : addMonths(leaves, line.months),
  };
}

/** Whether a rule covers an order of that reason outside its clock. */
export function isException(rule: CoverageRule, reason: OrderReason): boolean {
  return (rule.exceptions as readonly OrderReason[]).includes(reason);
}
