'use server';

import { revalidatePath } from 'next/cache';
import { requireActing } from '@/app/_session/therapist';
import { textIn } from '@/app/_shell/posted';
import { openFeed, withdrawFeed } from '@/db/documents/calendar-feeds';

/** The path of an address just opened: shown once, because only its hash is kept. */
export type OpenedFeed = { readonly path: string } | null;

/** Opens a calendar address for the whole clinic's dates. */
export async function openFeedAction(_before: OpenedFeed, _form: FormData): Promise<OpenedFeed> {
  const therapist = await requireActing('lead');
  const token = await openFeed(therapist, null);
  revalidatePath('/clinic/calendar');
  return token ? { path: `/calendar/${token}` } : null;
}

/** Withdraws a calendar address: it answers nothing from this moment on. */
export async function withdrawFeedAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead');
  await withdrawFeed(therapist, textIn(form, 'feedId'));
  revalidatePath('/clinic/calendar');
}
