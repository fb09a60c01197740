'use server';

import { redirect } from 'next/navigation';
import { returnPath } from '@/app/_auth/return-path';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { loadPatient } from '@/app/_record/load-patient';
import { isSubmitted, saveNoted } from '@/db/patients/noted';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { REPLY_BOUNDS, REPLY_DEEDS } from '@/lib/observations/family-reply';
import { FAMILY_REPLY } from '@/lib/observations/family-reply-schema';

/** Why an answer to a reply was not taken, and what was typed. */
export type AnswerReplyState = { readonly refusal: string; readonly typed: Readonly<Record<string, string>> } | null;

/** Notes what was done about a reply of the family, by whom and when: a further state, so that what they sent stays as it came. */
export async function answerReplyAction(_before: AnswerReplyState, form: FormData): Promise<AnswerReplyState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', replyId = '', submissionId = '', back } = typed;
  const kept = back ? returnPath(back) : `/patients/${patientId}/replies`;
  if (await isSubmitted(therapist, submissionId)) redirect(kept);
  const { record, today } = await loadPatient(therapist, patientId);
  const refused = (refusal: string): AnswerReplyState => ({ refusal, typed });
  const standing = record.replies.find((one) => one.replyId === replyId);
  if (!standing || String(standing.number) !== typed.number)
    return refused('This has changed since the page was opened. Nothing was saved; open the page anew.');
  const did = REPLY_DEEDS.find((one) => one === typed.did);
  if (!did) return refused('Choose what was done.');
  const words = (typed.words ?? '').trim();
  if (words.length > REPLY_BOUNDS.answer) return refused(`Too long: ${REPLY_BOUNDS.answer} characters at most.`);
  const answer = { did, day: today, by: therapist.name, words: words || null };
  const saved = await saveNoted(therapist, patientId, {
    submissionId: submissionId || crypto.randomUUID(),
    ...{ kind: 'reply', thing: replyId, expected: standing.number, day: standing.day },
    ...{ content: FAMILY_REPLY.parse({ ...standing, answer }), deed: 'reply of the family answered', reason: words || null },
  });
  if (saved.kind === 'conflict' || saved.kind === 'not-found')
    return refused('Somebody else answered in between. Nothing was saved; open the page anew.');
  await refreshPatient(therapist, patientId, today);
  redirect(kept);
}
