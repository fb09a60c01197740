import { LEAVING_DEFAULTS, type LeavingTexts } from '@/lib/course/leaving';
import { LEAVING_TEXTS } from '@/lib/course/leaving-schema';
import type { Therapist } from '../therapist';
import { settingsOf } from './clinic';

/** Key of the clinic setting that holds what is asked before somebody leaves. */
export const LEAVING_KEY = 'leaving';

/** What the clinic asks before somebody leaves, and how to come back; proposed criteria until it writes its own. */
export async function leavingTextsOf(therapist: Therapist): Promise<LeavingTexts> {
  const set = (await settingsOf(therapist)).get(LEAVING_KEY);
  return set ? LEAVING_TEXTS.parse(set.value) : LEAVING_DEFAULTS;
}
