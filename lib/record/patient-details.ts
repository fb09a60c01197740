import type { CalendarDay } from '../units/calendar-day';
import type { LimbSide, PartOfSide, Sex } from './patient-record';

/** What a person writes about a patient. */
export type PatientDetails = {
  readonly reference: string;
  readonly name: string | null;
  readonly born: CalendarDay;
  readonly sex: Sex;
  readonly diagnosisGroup: string;
  readonly affected: readonly LimbSide[];
  /** Affected hands, feet, trunk, head; left out or null where none is. */
  readonly affectedParts?: readonly PartOfSide[] | null;
  readonly language: string;
  readonly note: string | null;
};
