'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { postedText } from '@/app/_form/posted';
import { changeSetting, clinicOf, historyOfSetting } from '@/db/clinic/clinic';
import { learnScale } from '@/db/clinic/learn-scale';
import { POLICY_KEY, policyInForce } from '@/db/clinic/policy';
import type { LearntScale } from '@/lib/analysis/record-error-scale';
import { type PolicyErrors, readPolicyForm } from '@/lib/forms/read-policy-form';
import { LIMITS, type LimitName } from '@/lib/limits/limits';
import { policySchema } from '@/lib/limits/policy';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** A refused form: why, beside each box, and everything as typed. */
export type LimitsState = { readonly errors: PolicyErrors & { reason?: string }; readonly typed: Readonly<Record<string, string>> | null };

/** Longest reason that is kept. */
const LONGEST_REASON = 200;

const STALE =
  'Somebody else changed the limits since the page was opened. Nothing was saved; what you typed stands here: open the page anew and compare.';

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
  if (reason.length > LONGEST_REASON) return { errors: { reason: `Too long: ${LONGEST_REASON} characters at most.` }, typed };
  const change = { key: POLICY_KEY, value: read.own, reason, after: Number(typed.number) };
  if ((await changeSetting(therapist, change)) === 'stale') return { errors: { reason: STALE }, typed };
  redirect('/clinic/limits');
}

/** What the record says of the clinic's scale of error; `refused` says why nothing was kept. */
export type ScaleState = { readonly learnt: (LearntScale & { readonly day: CalendarDay }) | null; readonly refused?: string };

/** Learns the scale of error from the clinic's own record, for a lead to look at. Nothing is changed. */
export async function learnScaleAction(_before: ScaleState): Promise<ScaleState> {
  const therapist = await requireActing('lead');
  const { timeZone } = await clinicOf(therapist);
  return { learnt: { ...(await learnScale(therapist)), day: todayIn(timeZone) } };
}

/** Keeps a learnt scale as this clinic's limit, with what it was learnt from as the reason. */
export async function keepScaleAction(before: ScaleState, form: FormData): Promise<ScaleState> {
  const therapist = await requireActing('lead');
  const { variance, why } = postedText(form);
  const after = (await historyOfSetting(therapist, POLICY_KEY)).length;
  const { own } = await policyInForce(therapist);
  const read = policySchema.safeParse({ ...own, errorScale: Number(variance) });
  if (!read.success || !why) return { ...before, refused: 'The form came without its figure. Nothing was changed. Learn again.' };
  const change = { key: POLICY_KEY, value: read.data, reason: why.slice(0, LONGEST_REASON), after };
  if ((await changeSetting(therapist, change)) === 'stale') return { ...before, refused: STALE };
  redirect('/clinic/limits');
}
