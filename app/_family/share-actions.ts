'use server';

import { revalidatePath } from 'next/cache';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { openLink, withdrawLink } from '@/db/documents/share-links';

/** The path of a link just made: shown once, because only its hash is kept. */
export type MadeLink = { readonly path: string } | null;

/** Makes a link to an approved page. */
export async function makeLinkAction(_before: MadeLink, form: FormData): Promise<MadeLink> {
  const therapist = await requireActing('lead', 'therapist');
  const token = await openLink(therapist, postedText(form).documentId ?? '');
  revalidatePath('/patients/[patientId]/family/[documentId]', 'page');
  return token ? { path: `/share/${token}` } : null;
}

/** Withdraws a link: it answers nothing from this moment on, also where it was opened already. */
export async function withdrawLinkAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead', 'therapist');
  await withdrawLink(therapist, postedText(form).linkId ?? '');
  revalidatePath('/patients/[patientId]/family/[documentId]', 'page');
}
