'use server';

import { hashPassword } from 'better-auth/crypto';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { keepJoined } from '@/app/_auth/just-joined';
import { beginTry } from '@/app/_auth/limits';
import { ownWordsOf, passwordRefusal } from '@/app/_auth/password-rules';
import { confirmFactor } from '@/app/_auth/second-factor';
import { requireOwnPage } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { holderOf, takeLink } from '@/db/people/one-time-links';

/** What stops the form, by box; or the recovery codes of the second factor just set up, shown once. */
export type JoinState = {
  readonly errors: { readonly password?: string; readonly code?: string; readonly form?: string };
  readonly recoveryCodes: readonly string[] | null;
};

/** Uses a one-time link: the password is set, with the second factor that was confirmed beside it. Nobody is signed in by it. */
export async function joinAction(_before: JoinState, form: FormData): Promise<JoinState> {
  await requireOwnPage();
  const { token = '', password = '', wanted = '', sealed = '', code = '' } = postedText(form);
  const refused = (errors: JoinState['errors']): JoinState => ({ errors, recoveryCodes: null });
  const attempt = await beginTry(await headers(), `link ${token}`);
  if (attempt.kind === 'too-many') return refused({ form: `Too many tries. Wait ${attempt.waitMinutes} min; nothing was changed.` });
  const holder = await holderOf(token);
  if (!holder) return refused({ form: 'This link has ended. Ask the clinic lead for a new one.' });
  await attempt.wasRight();
  const refusal = await passwordRefusal(password, ownWordsOf(holder, holder.clinicName));
  const confirmed = wanted === 'yes' ? await confirmFactor(holder.id, sealed, code) : undefined;
  if (refusal) return refused({ password: refusal });
  if (wanted === 'yes' && !confirmed) return refused({ code: 'This code does not fit. Wait for the next one and type that.' });
  const chosen = { passwordHash: await hashPassword(password), needsSecondFactor: false, ...(confirmed && { factor: confirmed.factor }) };
  if (!(await takeLink(token, chosen))) return refused({ form: 'This link has just been used. Ask the clinic lead for a new one.' });
  await keepJoined(holder.email);
  if (confirmed) return { errors: {}, recoveryCodes: confirmed.recoveryCodes };
  redirect('/sign-in?joined=yes');
}
