'use server';

import { cookies, headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { beginTry } from '@/app/_auth/limits';
import { requireOwnPage } from '@/app/_auth/therapist';
import { timeIn, todayIn } from '@/app/_auth/today';
import { shareCookie } from '@/app/_family/share-cookie';
import { postedText } from '@/app/_form/posted';
import { sendReply } from '@/db/documents/family-replies';
import { type SharedLink, sharedPage } from '@/db/documents/share-links';
import { troubleOf } from '@/db/sql/storage-trouble';
import { familyWords } from '@/lib/summary/family/family-languages';
import { readReply } from '@/lib/summary/family/read-reply';

/** What stops a reply, beside its boxes or (`form`) as a whole, and everything as it was typed. */
export type ReplyState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

const COOKIE = /^[\w-]{43}$/;
const FORM_ID = /^[0-9a-f-]{36}$/;

/** Takes a reply of a family that holds the cookie of a link: from a page of this program alone, counted like every try of a stranger. */
export async function replyAction(_before: ReplyState, form: FormData): Promise<ReplyState> {
  await requireOwnPage();
  const typed = postedText(form);
  const cookie = (await cookies()).get(shareCookie().name)?.value ?? '';
  const words = familyWords(typed.language ?? '').reply;
  const refused = (errors: ReplyState['errors']): ReplyState => ({ errors, typed });
  try {
    const attempt = await beginTry(await headers(), `reply by ${cookie}`);
    if (attempt.kind === 'too-many') return refused({ form: words.wait(attempt.waitMinutes) });
    const link = COOKIE.test(cookie) ? await sharedPage(cookie) : undefined;
    const ended = await replyTo(link, typed);
    if (ended) return refused(ended);
    await attempt.wasRight();
  } catch (error) {
    if (!troubleOf(error)) throw error;
    return refused({ form: words.later });
  }
  redirect('/share?sent#reply-head');
}

/** Why a reply was not taken; undefined when it was. */
async function replyTo(link: SharedLink | undefined, typed: Readonly<Record<string, string>>): Promise<ReplyState['errors'] | undefined> {
  const words = familyWords(link?.page.language ?? typed.language ?? '').reply;
  if (!link?.page.asks) return { form: words.ended };
  const now = new Date();
  const clock = { day: todayIn(link.timeZone, now), time: timeIn(link.timeZone, now) };
  const read = readReply(typed, link.page.asks, clock, words);
  if (read.kind === 'refused') return { form: words.refused, ...read.errors };
  const id = typed.submissionId ?? '';
  const sent = await sendReply(link, read.reply, FORM_ID.test(id) ? id : crypto.randomUUID(), now);
  if (sent.kind === 'ended') return { form: words.ended };
  if (sent.kind === 'too-many') return { form: words.tooMany(sent.most) };
  return sent.kind === 'not-now' ? { form: words.later } : undefined;
}
