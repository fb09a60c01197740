import type { OwnKind } from '@/lib/observations/catalogue';
import { OWN_KINDS } from '@/lib/observations/own-kinds-schema';
import type { Therapist } from '../therapist';
import { settingsOf } from './clinic';

/** Key of the clinic setting that holds what the clinic added to the catalogue of what is looked at. */
export const OWN_KINDS_KEY = 'own observations';

/** What the clinic added itself; nothing until a lead does. */
export async function ownKindsOf(therapist: Therapist): Promise<readonly OwnKind[]> {
  return OWN_KINDS.parse((await settingsOf(therapist)).get(OWN_KINDS_KEY)?.value ?? []);
}
