import type { Ladder } from '../ladder/ladder';
import { type LimbKind, placeInWords } from '../ladder/limb';
import { capitalized } from '../units/capitalized';
import type { LengthUnit } from '../units/length';
import type { MassUnit } from '../units/mass';

/**
 * How a clinic measures a limb that it never measured: from which landmark, which way, and how far apart, as typed. `unit` is the tape's where
 * it is another than the clinic's.
 */
export type FirstSetUp = {
  readonly zero: string;
  readonly direction: Ladder['direction'];
  readonly interval: string;
  readonly unit?: LengthUnit;
};

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
  /** The number for an emergency where the clinic is; left out where it has not said: then the time zone proposes one. */
  readonly emergency?: string;
  /** How a first visit is set up, by limb, and in which posture; left out where the clinic has not said: then the sheet asks. */
  readonly setUp?: Readonly<Partial<Record<LimbKind, FirstSetUp>>>;
  readonly posture?: string;
};

/** Longest texts of a clinic’s details, in characters, and most lines of its address. */
export const CLINIC_BOUNDS = { name: 80, line: 80, lines: 5, phone: 40, interval: 20, posture: 60 } as const;

/** How a first ladder is set up, limb by limb: `Leg from the ankle crease upward, every 1 1/2 in.`; null where nothing was said. */
export function setUpInWords({ setUp = {}, lengthUnit }: Pick<ClinicDetails, 'setUp' | 'lengthUnit'>): string | null {
  const said = Object.entries(setUp).map(
    ([limb, { zero, direction, interval, unit = lengthUnit }]) =>
      `${capitalized(limb)} from the ${placeInWords(zero)} ${direction === 'up' ? 'upward' : 'downward'}, every ${interval} ${unit}.`,
  );
  return said.length > 0 ? said.join(' ') : null;
}
