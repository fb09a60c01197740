'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { changeSetting } from '@/db/clinic/clinic';
import { DIARY_KEY } from '@/db/clinic/diary';
import { readDiaryForm } from '@/lib/forms/read-diary-form';
import { LONGEST_REASON, reasonErrors } from '@/lib/forms/read-reason';

/** What stops the form, beside its boxes, and everything as typed. */
export type DiaryFormState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

const STALE =
  'Somebody else changed the working days since the page was opened. Nothing was saved; what you typed stands here: open the page anew and compare.';

/** Keeps when the clinic works; what stood before stays in the history. Dates follow when they are next looked at. */
export async function saveDiaryAction(_before: DiaryFormState, form: FormData): Promise<DiaryFormState> {
  const therapist = await requireActing('lead');
  const typed = postedText(form);
  const read = readDiaryForm(typed);
  const reason = (typed.reason ?? '').trim();
  const unsaid = reasonErrors(reason, false, LONGEST_REASON.other);
  if (read.kind === 'refused') return { errors: { ...read.errors, ...unsaid }, typed };
  if (unsaid.reason) return { errors: unsaid, typed };
  const change = { key: DIARY_KEY, value: read.diary, reason: reason || 'working days', after: Number(typed.number) };
  if ((await changeSetting(therapist, change)) === 'stale') return { errors: { form: STALE }, typed };
  redirect('/clinic/diary');
}
