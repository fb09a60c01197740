import type { CalendarDay } from '../units/calendar-day';
import type { LimbSide, Sex } from './patient-record';

/** What a person writes about a patient. */
export type PatientDetails = {
  readonly reference: string;
  readonly name: string | null;
  readonly born: CalendarDay;
  readonly sex: Sex;
  readonly diagnosisGroup: string;
  readonly affected: readonly LimbSide[];
  readonly language: string;
  readonly note: string | null;
};
