import { ageInYears } from '../units/age';
import { addDays, type CalendarDay } from '../units/calendar-day';
import type { PatientRecord } from './patient-record';
import type { Policy } from './policy';

/** Days from one visit to the next at an age, by the clinic's table. */
export function reviewInterval(record: PatientRecord, on: CalendarDay, policy: Policy): number {
  const age = ageInYears(record.born, on);
  const row = policy.reviewDays.find((one) => age < one.underYears) ?? policy.reviewDays.at(-1);
  return row?.days ?? 182;
}

/** The day the next visit falls due: the last visit plus the clinic's interval; undefined before the first visit. */
export function nextVisit(record: PatientRecord, policy: Policy): CalendarDay | undefined {
  const last = record.visits.at(-1)?.day;
  return last === undefined ? undefined : addDays(last, reviewInterval(record, last, policy));
}
