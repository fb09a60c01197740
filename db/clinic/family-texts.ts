import { type ClinicTexts, familyTextsSchema } from '@/lib/summary/family/clinic-texts';
import type { Therapist } from '../therapist';
import { settingsOf } from './clinic';

/** The setting that holds what the clinic says on the family page, by language. */
export const FAMILY_TEXTS_KEY = 'family texts';

/** The clinic's own texts by language; none until it writes some. */
export async function clinicTextsOf(therapist: Therapist): Promise<Readonly<Record<string, ClinicTexts>>> {
  return familyTextsSchema.parse((await settingsOf(therapist)).get(FAMILY_TEXTS_KEY)?.value ?? {});
}
