import type { Clinic } from '@/db/clinic';
import type { MappingDefaults } from '@/lib/exchange/spreadsheet/guess-mapping';

/** What a clinic would choose first for a spreadsheet: its own units, and no particular diagnosis group. */
export function startOf({ lengthUnit, massUnit }: Clinic): MappingDefaults {
  return { unit: lengthUnit, heightUnit: lengthUnit, weightUnit: massUnit, diagnosisGroup: 'other' };
}
