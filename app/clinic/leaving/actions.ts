'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { changeSetting } from '@/db/clinic/clinic';
import { LEAVING_KEY } from '@/db/clinic/leaving-texts';
import { readLeavingTexts } from '@/lib/forms/read-leaving';
import { AFTERWARDS } from '@/lib/summary/afterwards';

/** What stops the form, beside its boxes, and everything as typed. */
export type LeavingTextsState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

const STALE =
  'Somebody else changed these texts since the page was opened. Nothing was saved; what you typed stands here: open the page anew and compare.';

/** Keeps what the clinic asks before somebody leaves, and its way back; what was gone through before keeps its words. */
export async function saveLeavingTextsAction(_before: LeavingTextsState, form: FormData): Promise<LeavingTextsState> {
  const therapist = await requireActing('lead');
  const typed = postedText(form);
  const read = readLeavingTexts(typed, Object.keys(AFTERWARDS));
  if (read.kind === 'refused') return { errors: read.errors, typed };
  const change = { key: LEAVING_KEY, value: read.texts, reason: 'what is asked before somebody leaves', after: Number(typed.number) };
  if ((await changeSetting(therapist, change)) === 'stale') return { errors: { form: STALE }, typed };
  redirect('/clinic/leaving');
}
