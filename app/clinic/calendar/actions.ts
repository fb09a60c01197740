'use server';

import { revalidatePath } from 'next/cache';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { changeSetting } from '@/db/clinic/clinic';
import { ALARM_DAYS, ALARM_KEY } from '@/db/documents/calendar-alarm';
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

/** Says when calendar programs remind of a date, for the whole clinic; nothing chosen is no reminder. */
export async function setAlarmAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead');
  const days = ALARM_DAYS.safeParse(Number(postedText(form).days) || null);
  if (days.success) await changeSetting(therapist, { key: ALARM_KEY, value: days.data, reason: null });
  revalidatePath('/clinic/calendar');
}

/** Withdraws a calendar address: it answers nothing from this moment on. */
export async function withdrawFeedAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead');
  await withdrawFeed(therapist, postedText(form).feedId ?? '');
  revalidatePath('/clinic/calendar');
}
