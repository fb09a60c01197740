import { addMonths, type CalendarDay } from '@/lib/units/calendar-day';

/** Years a record is kept after the last visit. */
const YEARS_AFTER = 8;
/** Until which birthday a child's record is kept, and that of someone who was 17 at the end. */
const CHILD_UNTIL = 25;
const SEVENTEEN_UNTIL = 26;

/**
 * The first day on which a patient's record may be erased without a reason that outweighs the duty to keep it.
 *
 * Clinic default from one country's rule; the law where the clinic is comes first. Source: Records Management Code of Practice 2021
 * (NHS England), appendix II: adults eight years after the last entry, children until the 25th birthday, or the 26th if they were 17.
 * Example: born 2016-02-29, last seen 2026-10-14: until 2041-02-28.
 */
export function keepUntil(born: CalendarDay, lastVisit: CalendarDay | undefined): CalendarDay {
  if (!lastVisit) return born;
  if (lastVisit >= addYears(born, 18)) return addYears(lastVisit, YEARS_AFTER);
  return addYears(born, lastVisit >= addYears(born, 17) ? SEVENTEEN_UNTIL : CHILD_UNTIL);
}

function addYears(day: CalendarDay, years: number): CalendarDay {
  return addMonths(day, 12 * years);
}
