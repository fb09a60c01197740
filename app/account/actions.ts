'use server';

import { hashPassword } from 'better-auth/crypto';
import { revalidatePath } from 'next/cache';
import { ownPasswordRefusal } from '@/app/_auth/own-password';
import { SHORTEST } from '@/app/_auth/password-lengths';
import { ownWordsOf, passwordRefusal } from '@/app/_auth/password-rules';
import { newRecoveryCodes, recoveryCodeHash } from '@/app/_auth/recovery-codes';
import { confirmFactor } from '@/app/_auth/second-factor';
import { openSession, requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { clinicOf } from '@/db/clinic/clinic';
import { changePassword, ownProof } from '@/db/people/own-account';
import { renewRecoveryCodes, turnFactorOff, turnFactorOn } from '@/db/people/second-factor';
import { endOtherSessions, endSession } from '@/db/people/sessions';

/** What stops a form, by box; what was done, in words; and recovery codes just made, shown once. */
export type AccountState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly done?: string;
  readonly recoveryCodes?: readonly string[];
};

/** Changes the password; wherever else this person is signed in, they are signed out. */
export async function changePasswordAction(_before: AccountState, form: FormData): Promise<AccountState> {
  const therapist = await requireActing();
  const { current = '', password = '' } = postedText(form);
  const [clinic, { email }, session] = [await clinicOf(therapist), await ownProof(therapist), await openSession()];
  const wrong = await ownPasswordRefusal(therapist, current);
  if (wrong || !session) return { errors: { current: wrong ?? 'You have been signed out.' } };
  const refusal = await passwordRefusal(password, ownWordsOf({ name: therapist.name, email }, clinic.name));
  if (refusal) return { errors: { password: refusal } };
  await changePassword(therapist, { passwordHash: await hashPassword(password), needsSecondFactor: false }, session.id);
  revalidatePath('/account');
  return { errors: {}, done: 'Your password is changed. Every other place where you were signed in is signed out.' };
}

/** Turns the offered second factor on, once its code and the password are right; the recovery codes are shown once. */
export async function turnOnFactorAction(_before: AccountState, form: FormData): Promise<AccountState> {
  const therapist = await requireActing();
  const { current = '', sealed = '', code = '' } = postedText(form);
  const wrong = await ownPasswordRefusal(therapist, current);
  if (wrong) return { errors: { current: wrong } };
  const confirmed = await confirmFactor(therapist.id, sealed, code);
  if (!confirmed) return { errors: { code: 'This code does not fit. Wait for the next one and type that.' } };
  await turnFactorOn(therapist, confirmed.factor);
  return { errors: {}, recoveryCodes: confirmed.recoveryCodes };
}

/** Turns the second factor off, for who has a password long enough to stand alone. */
export async function turnOffFactorAction(_before: AccountState, form: FormData): Promise<AccountState> {
  const therapist = await requireActing();
  const wrong = await ownPasswordRefusal(therapist, postedText(form).current ?? '');
  if (wrong) return { errors: { current: wrong } };
  if (await turnFactorOff(therapist)) revalidatePath('/account');
  else return { errors: { current: `Your password is too short to stand alone. Change it first to one of ${SHORTEST} or more.` } };
  return { errors: {}, done: 'Your second factor is off.' };
}

/** Makes ten new recovery codes; the earlier ones open nothing any more. */
export async function renewCodesAction(_before: AccountState, form: FormData): Promise<AccountState> {
  const therapist = await requireActing();
  const wrong = await ownPasswordRefusal(therapist, postedText(form).current ?? '');
  if (wrong) return { errors: { current: wrong } };
  const recoveryCodes = newRecoveryCodes();
  if (await renewRecoveryCodes(therapist, recoveryCodes.map(recoveryCodeHash))) return { errors: {}, recoveryCodes };
  return { errors: { current: 'Your second factor is off; there is nothing to recover.' } };
}

/** Ends one of this person's sessions. */
export async function endSessionAction(form: FormData): Promise<void> {
  const therapist = await requireActing();
  await endSession(therapist, postedText(form).sessionId ?? '');
  revalidatePath('/account');
}

/** Ends every session of this person but this one. */
export async function endOtherSessionsAction(): Promise<void> {
  const therapist = await requireActing();
  const session = await openSession();
  if (session) await endOtherSessions(therapist, session.id);
  revalidatePath('/account');
}
