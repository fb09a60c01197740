import type { LengthUnit } from '../units/length';
import type { MassUnit } from '../units/mass';

/** What a clinic is called and where it is, the units it tapes and weighs in, and the zone its days are counted in. */
export type ClinicDetails = {
  readonly name: string;
  readonly subtitle: string;
  readonly lengthUnit: LengthUnit;
  readonly massUnit: MassUnit;
  readonly timeZone: string;
  /** Where pieces are delivered, a line each; nothing where none was written. */
  readonly address: readonly string[];
  readonly phone: string | null;
};

/** Longest texts of a clinic’s details, in characters, and most lines of its address. */
export const CLINIC_BOUNDS = { name: 80, line: 80, lines: 5, phone: 40 } as const;
