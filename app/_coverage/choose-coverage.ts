'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { coverageRulesOf, setCoverage } from '@/db/clinic/coverage';
import { readDay } from '@/lib/units/calendar-day';

/** Why a choice was not taken, and what was typed. */
export type ChooseCoverageState = {
  readonly refusal: string | null;
  readonly typed: { readonly rule: string; readonly from: string } | null;
};

/** Writes down which payer's rule holds for a patient; earlier choices stay. */
export async function chooseCoverageAction(_before: ChooseCoverageState, form: FormData): Promise<ChooseCoverageState> {
  const therapist = await requireActing('lead', 'therapist');
  const { patientId = '', rule: chosen = '', from: typedDay = '' } = postedText(form);
  const typed = { rule: chosen, from: typedDay };
  const from = readDay(typed.from);
  if (from.kind !== 'read') return { refusal: from.reason, typed };
  const rule = (await coverageRulesOf(therapist)).find((one) => one.id === typed.rule);
  if (typed.rule !== '' && !rule) return { refusal: 'This rule is no longer there. Reload the page.', typed };
  if (!(await setCoverage(therapist, patientId, { ruleId: rule?.id ?? null, from: from.value, note: null })))
    return { refusal: 'This patient is not in your clinic. Nothing was saved.', typed };
  redirect(`/patients/${patientId}`);
}
