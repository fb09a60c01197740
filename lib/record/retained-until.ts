import type { Policy } from '../limits/policy';
import { addMonths, type CalendarDay } from '../units/calendar-day';

/** The limits of keeping, as a clinic has set them. */
export type KeepPolicy = Pick<Policy, 'keepYears' | 'keepChildUntilYears' | 'keepSeventeenUntilYears'>;

/**
 * The first day on which a patient's record may be erased without a reason that outweighs the duty to keep it.
 *
 * Shape: day of birth, day of the last visit or undefined, the clinic's years. Source: `RETENTION_LIMITS`.
 * Example with the defaults: born 2016-02-29, last seen 2026-10-14: until 2041-02-28.
 */
export function retainedUntil(born: CalendarDay, lastVisit: CalendarDay | undefined, policy: KeepPolicy): CalendarDay {
  if (!lastVisit) return born;
  if (lastVisit >= addYears(born, 18)) return addYears(lastVisit, policy.keepYears);
  return addYears(born, lastVisit >= addYears(born, 17) ? policy.keepSeventeenUntilYears : policy.keepChildUntilYears);
}

function addYears(day: CalendarDay, years: number): CalendarDay {
  return addMonths(day, Math.round(12 * years));
}
