'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { changeSetting } from '@/db/clinic/clinic';
import { COVERAGE_KEY, coverageRulesOf } from '@/db/clinic/coverage';
import { readCoverageForm, type TypedCoverage } from '@/lib/forms/read-coverage-form';

/** A refused rule: why, beside each box, and everything as typed. */
export type CoverageFormState = { readonly errors: Readonly<Record<string, string>>; readonly typed: TypedCoverage | null };

/** Keeps a coverage rule, new or changed; the clinic's rules as they were stay in its history. */
export async function saveCoverageAction(_before: CoverageFormState, form: FormData): Promise<CoverageFormState> {
  const therapist = await requireActing('lead');
  const typed = postedText(form);
  const rules = await coverageRulesOf(therapist);
  const id = rules.some((one) => one.id === typed.id) ? (typed.id as string) : crypto.randomUUID();
  const read = readCoverageForm(typed, id);
  if (read.kind === 'refused') return { errors: read.errors, typed };
  const value = rules.some((one) => one.id === id) ? rules.map((one) => (one.id === id ? read.rule : one)) : [...rules, read.rule];
  await changeSetting(therapist, { key: COVERAGE_KEY, value, reason: `${read.rule.payer} written` });
  redirect('/clinic/coverage');
}
