'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_shell/posted';
import { changeSetting } from '@/db/clinic/clinic';
import { POLICY_KEY, policyInForce } from '@/db/clinic/policy';
import { type PolicyErrors, readPolicyForm } from '@/lib/forms/read-policy-form';
import { LIMITS, type LimitName } from '@/lib/limits/limits';

/** A refused form: why, beside each box, and everything as typed. */
export type LimitsState = { readonly errors: PolicyErrors & { reason?: string }; readonly typed: Readonly<Record<string, string>> | null };

const LIMIT_NAMES = Object.keys(LIMITS) as readonly LimitName[];

/** Keeps the clinic's own limits as a new row with who, when and why; earlier values stay. */
export async function saveLimitsAction(_before: LimitsState, form: FormData): Promise<LimitsState> {
  const therapist = await requireActing('lead');
  const typed = postedText(form);
  if (!LIMIT_NAMES.every((name) => typed[name] !== undefined))
    return { errors: { reason: 'The form came without its boxes. Nothing was changed. Reload the page.' }, typed };
  const read = readPolicyForm(typed, (await policyInForce(therapist)).unset);
  if (read.kind === 'refused') return { errors: read.errors, typed };
  const reason = (typed.reason ?? '').trim();
  if (reason === '') return { errors: { reason: 'Say why the limits are changed: it stands beside them later.' }, typed };
  await changeSetting(therapist, { key: POLICY_KEY, value: read.own, reason });
  redirect('/clinic/limits');
}
