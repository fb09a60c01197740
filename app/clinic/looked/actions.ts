'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { changeSetting } from '@/db/clinic/clinic';
import { OWN_KINDS_KEY, ownKindsOf } from '@/db/clinic/observed-kinds';
import { readOwnKinds } from '@/lib/forms/read-own-kinds';

/** What stops the form, beside its boxes, and everything as typed. */
export type OwnKindsState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

/** Keeps what the clinic adds to what is looked at; figures of a kind that is asked no more stay readable. */
export async function saveOwnKindsAction(_before: OwnKindsState, form: FormData): Promise<OwnKindsState> {
  const therapist = await requireActing('lead');
  const typed = postedText(form);
  const standing = await ownKindsOf(therapist);
  if (String(standing.length) !== typed.standing)
    return { errors: { form: 'Somebody else changed this since the page was opened. Nothing was saved; open it anew.' }, typed };
  const read = readOwnKinds(typed, standing);
  if (read.kind === 'refused') return { errors: read.errors, typed };
  await changeSetting(therapist, { key: OWN_KINDS_KEY, value: read.own, reason: 'what is looked at' });
  redirect('/clinic/looked');
}
