'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { cautionAbout } from '@/app/_cautions/caution-about';
import { postedText } from '@/app/_form/posted';
import { loadPatient } from '@/app/_record/load-patient';
import { answerCautions } from '@/db/patients/cautions';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { cardStates } from '@/lib/cautions/caution-cards';
import { readCautionForm } from '@/lib/cautions/read-caution-form';

/** A refused form: why, beside each box, and everything as typed. */
export type CautionFormState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

/** Keeps the answers to a patient's caution cards with the wording they were asked in, for the newest visit where there is one. */
export async function answerCautionsAction(_before: CautionFormState, form: FormData): Promise<CautionFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', submissionId = '' } = typed;
  const { record, analysis, today } = await loadPatient(therapist, patientId);
  const about = cautionAbout(analysis);
  const read = readCautionForm(typed, cardStates(about), about);
  if (read.kind === 'refused') return { errors: read.errors, typed };
  const visitId = record.visits.at(-1)?.visitId ?? null;
  const kept = await answerCautions(therapist, patientId, { visitId, day: today, answers: read.answers, submissionId });
  if (!kept) return { errors: { form: 'This patient is not in your clinic. Nothing was kept.' }, typed };
  await refreshPatient(therapist, patientId, today);
  redirect(`/patients/${patientId}/cautions`);
}
