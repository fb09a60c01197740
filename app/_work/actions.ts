'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { loadPatient } from '@/app/_record/load-patient';
import { isSubmitted, saveNoted } from '@/db/patients/noted';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { LONGEST_REASON, reasonErrors } from '@/lib/forms/read-reason';
import { readWorkFacts } from '@/lib/forms/read-work-facts';

/** What stops the form, beside its boxes, and everything as it was typed. */
export type FactsFormState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

const STALE =
  'Somebody else wrote this down since the page was opened. Nothing was saved; what you typed stands here: open the page anew and compare.';

/** Writes down who the person is for the work, as a state of its own: the earlier ones stay. A change of what stood says why. */
export async function saveFactsAction(_before: FactsFormState, form: FormData): Promise<FactsFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', submissionId = '', number = '' } = typed;
  const kept = `/patients/${patientId}`;
  if (await isSubmitted(therapist, submissionId)) redirect(kept);
  const { record, today } = await loadPatient(therapist, patientId);
  const read = readWorkFacts(typed, record.born, today);
  const reason = (typed.reason ?? '').trim();
  const unsaid = reasonErrors(reason, record.factsNumber > 0, LONGEST_REASON.facts);
  if (read.kind === 'refused') return { errors: { ...read.errors, ...unsaid }, typed };
  if (unsaid.reason) return { errors: unsaid, typed };
  if (record.factsNumber !== Number(number)) return { errors: { form: STALE }, typed };
  const saved = await saveNoted(therapist, patientId, {
    submissionId: submissionId || crypto.randomUUID(),
    ...{ kind: 'facts', thing: patientId, expected: record.factsNumber, day: null, content: read.facts },
    ...{ deed: 'facts for the work written', reason: reason || null },
  });
  if (saved.kind === 'conflict') return { errors: { form: STALE }, typed };
  if (saved.kind === 'not-found') return { errors: { form: 'This patient is not in your clinic. Nothing was saved.' }, typed };
  await refreshPatient(therapist, patientId, today);
  redirect(kept);
}
