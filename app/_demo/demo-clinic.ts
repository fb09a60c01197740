import type { CalendarDay } from '@/lib/units/calendar-day';
import type { LengthUnit } from '@/lib/units/length';
import type { MassUnit } from '@/lib/units/mass';
import { ARM_STORIES } from './arm-stories';
import { CHILD_STORIES } from './child-stories';
import { type DemoPatient, demoPatient } from './demo-patient';
import { LEG_STORIES } from './leg-stories';

/** The made-up clinic: what its page head says, its units, and who works there. */
export type DemoClinic = {
  readonly clinic: {
    readonly name: string;
    readonly subtitle: string;
    readonly lengthUnit: LengthUnit;
    readonly massUnit: MassUnit;
    readonly therapist: string;
    /** Everyone who tapes, by initials. */
    readonly staff: readonly { readonly initials: string; readonly name: string }[];
  };
  readonly patients: readonly DemoPatient[];
};

/**
 * The demonstration clinic as it stands on a day: made-up people, each with a story, dated back from that day.
 *
 * Pure: the same day gives the same clinic, figure for figure. Nobody here is real; limbs are computed (`limb-shapes.ts`).
 * Example: on any day Mira Oduya, HL-0147, is 10 years and 9 months old and was last taped on the working day before.
 */
export function demoClinic(today: CalendarDay): DemoClinic {
  const stories = [...CHILD_STORIES, ...LEG_STORIES, ...ARM_STORIES];
  return {
    clinic: {
      name: 'Harbour Lane',
      subtitle: 'garment clinic',
      lengthUnit: 'in',
      massUnit: 'lb',
      therapist: 'R. Adeyemi',
      staff: [
        { initials: 'RA', name: 'R. Adeyemi' },
        { initials: 'KD', name: 'K. Doan' },
        { initials: 'MT', name: 'M. Trevino' },
      ],
    },
    patients: stories.map((story) => demoPatient(story, today)).sort((one, other) => (one.reference < other.reference ? -1 : 1)),
  };
}
