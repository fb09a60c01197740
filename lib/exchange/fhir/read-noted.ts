import type { Appointment, Communication, Condition, Observation } from 'fhir/r4';
import { LEAVING } from '../../course/leaving-schema';
import { BOOKING } from '../../diary/booking-schema';
import { FAMILY_REPLY } from '../../observations/family-reply-schema';
import { OBSERVATION } from '../../observations/observation-schema';
import type { PatientFile } from '../../record/patient-file';
import { factFaults } from '../../record/work-facts';
import { WORK_FACTS } from '../../record/work-facts-schema';
import { type CalendarDay, calendarDay } from '../../units/calendar-day';
import { BundleRefusal, jsonOf, named } from './bundle-refusal';
import { extendedText } from './extensions';

/** What is noted beside the measures: the facts on their Condition, bookings, things looked at, replies of the family; each left out where there is none. */
export function notedOf(
  conditions: readonly Condition[],
  appointments: readonly Appointment[],
  looked: readonly Observation[],
  left: readonly Observation[],
  replies: readonly Communication[],
  born: CalendarDay,
): Pick<PatientFile, 'facts' | 'leaving' | 'bookings' | 'observations' | 'replies'> {
  const [facts] = conditions.filter((one) => extendedText(one, 'for-the-work') !== null);
  const known = facts && jsonOf(facts, 'for-the-work', WORK_FACTS);
  const [fault] = known ? factFaults(known, born, calendarDay('9999-12-31')) : [];
  if (facts && fault) throw new BundleRefusal(`${named(facts)}: ${fault.reason}`);
  return {
    ...(known && { facts: known }),
    ...(left[0] && { leaving: jsonOf(left[0], 'leaving', LEAVING) }),
    ...(appointments.length > 0 && { bookings: appointments.map((one) => jsonOf(one, 'booking', BOOKING)) }),
    ...(looked.length > 0 && { observations: looked.map((one) => jsonOf(one, 'looked', OBSERVATION)) }),
    ...(replies.length > 0 && { replies: replies.map((one) => jsonOf(one, 'family-reply', FAMILY_REPLY)) }),
  };
}
