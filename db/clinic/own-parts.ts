import type { ListedForm } from '@/lib/garment-forms/own-form';
import { LISTED_FORMS } from '@/lib/garment-forms/own-form-schema';
import type { ListedMeasure } from '@/lib/parts/own-measure';
import { LISTED_MEASURES } from '@/lib/parts/own-measure-schema';
import type { Therapist } from '../therapist';
import { settingsOf } from './clinic';

/** Keys of the clinic settings that hold what the clinic added to the catalogue of named measures and to the forms of garment. */
export const OWN_MEASURES_KEY = 'own measures';
export const OWN_FORMS_KEY = 'own garment forms';

/** The named measures and forms of garment that the clinic added itself, retired ones among them; nothing until a lead does. */
export async function ownPartsOf(
  therapist: Therapist,
): Promise<{ readonly measures: readonly ListedMeasure[]; readonly forms: readonly ListedForm[] }> {
  const settings = await settingsOf(therapist);
  return {
    measures: LISTED_MEASURES.parse(settings.get(OWN_MEASURES_KEY)?.value ?? []),
    forms: LISTED_FORMS.parse(settings.get(OWN_FORMS_KEY)?.value ?? []),
  };
}
