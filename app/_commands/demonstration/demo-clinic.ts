import type { Clinic } from '@/db/clinic/clinic';
import type { ClinicDetails } from '@/lib/record/clinic-details';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { ARM_STORIES } from './arm-stories';
import { CHILD_STORIES } from './child-stories';
import { COURSE_STORIES } from './course-stories';
import { type DemoPatient, demoPatient } from './demo-patient';
import { LEG_STORIES } from './leg-stories';

/** The made-up clinic, who works there, and its patients by reference. */
export type DemoClinic = {
  readonly clinic: Omit<Clinic, 'id'>;
  /** Who signs in first. */
  readonly therapist: string;
  /** Everyone who tapes, by initials. */
  readonly staff: readonly { readonly initials: string; readonly name: string }[];
  readonly patients: readonly DemoPatient[];
};

/** Where the made-up clinic is and how it measures; the telephone is of a range that is given to nobody. */
export const HARBOUR_LANE: Pick<ClinicDetails, 'address' | 'phone' | 'emergency' | 'setUp' | 'posture'> = {
  address: ['14 Harbour Lane', 'Eastport'],
  phone: '555-0142',
  emergency: '911',
  setUp: {
    leg: { zero: 'ankle-crease', direction: 'up', interval: '1 1/2' },
    arm: { zero: 'wrist-crease', direction: 'up', interval: '1 1/2' },
  },
  posture: 'lying',
};

/**
 * The demonstration clinic as it stands on a day: made-up people, each with a story, dated back from that day.
 *
 * Pure: the same day gives the same clinic, figure for figure. Nobody here is real; limbs are computed (`limb-shapes.ts`).
 * Example: on any day Mira Oduya, HL-0147, is 10 years and 9 months old and was last taped on the working day before.
 */
export function demoClinic(today: CalendarDay): DemoClinic {
  const patients = [...CHILD_STORIES, ...LEG_STORIES, ...ARM_STORIES, ...COURSE_STORIES].map((story) => demoPatient(story, today));
  return {
    clinic: { name: 'Harbour Lane', subtitle: 'garment clinic', lengthUnit: 'in', massUnit: 'lb', timeZone: 'UTC' },
    therapist: 'R. Adeyemi',
    staff: [
      { initials: 'RA', name: 'R. Adeyemi' },
      { initials: 'KD', name: 'K. Doan' },
      { initials: 'MT', name: 'M. Trevino' },
    ],
    patients: patients.sort((one, other) => (one.details.reference < other.details.reference ? -1 : 1)),
  };
}
