'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { changeSetting } from '@/db/clinic/clinic';
import { clinicTextsOf, FAMILY_TEXTS_KEY } from '@/db/clinic/family-texts';
import { clinicTextsSchema } from '@/lib/summary/family/clinic-texts';
import { FAMILY_LANGUAGES } from '@/lib/summary/family/family-languages';

/** A refused form: why, and everything as typed. */
export type TextsState = { readonly refusal: string | null; readonly typed: Readonly<Record<string, string>> | null };

/** Keeps what the clinic says on the family page in one language; earlier texts stay in the history, and approved pages as they were. */
export async function saveTextsAction(_before: TextsState, form: FormData): Promise<TextsState> {
  const therapist = await requireActing('lead');
  const typed = postedText(form);
  const { language = '', care = '', wait = '', phone = '', phoneHours = '', night = '', emergency = '' } = typed;
  const words = FAMILY_LANGUAGES.find((one) => one.language === language);
  if (!words) return { refusal: 'The family page is not written in this language. Nothing was saved.', typed };
  const read = clinicTextsSchema.safeParse({
    care: care.trim(),
    wait: wait.trim(),
    phone: phone.trim(),
    phoneHours: phoneHours.trim(),
    night: night.trim(),
    emergency: emergency.trim(),
  });
  if (!read.success) return { refusal: 'One of the texts is too long for one side of paper: 600 letters at most.', typed };
  const value = { ...(await clinicTextsOf(therapist)), [language]: read.data };
  await changeSetting(therapist, { key: FAMILY_TEXTS_KEY, value, reason: `texts in ${words.name}` });
  redirect('/clinic/family-texts');
}
