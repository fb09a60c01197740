'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { postedText } from '@/app/_form/posted';
import { clinicOf } from '@/db/clinic/clinic';
import { patientHead, revisePatient } from '@/db/patients/patients';
import { refreshPatient } from '@/db/worklist/refresh-work';
import type { PatientFormState } from '../../patient-form';
import { readPatient, typedPatient } from '../../read-patient';

/** Corrects a patient's details by a new state with its reason; or gives the form back. Sent twice, it corrects once. */
export async function correctPatientAction(_before: PatientFormState, form: FormData): Promise<PatientFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = typedPatient(form);
  const { patientId = '', revision = '', submissionId = '' } = postedText(form);
  const today = todayIn((await clinicOf(therapist)).timeZone);
  const read = readPatient(typed, today);
  const reason = typed.reason.trim();
  const unsaid = reason === '' ? { reason: 'Say in a few words why it is changed.' } : {};
  if (read.kind === 'refused') return { errors: { ...read.errors, ...unsaid }, typed };
  if (reason === '') return { errors: unsaid, typed };
  const head = await patientHead(therapist, patientId);
  if (!head) return { errors: { reference: 'This patient is not in your clinic. Nothing was saved.' }, typed };
  const saved = await revisePatient(therapist, patientId, Number(revision), {
    submissionId: submissionId || crypto.randomUUID(),
    details: { ...read.details, affectedParts: read.details.affectedParts ?? null, note: head.note },
    reason,
  });
  if (saved.kind === 'reference-taken')
    return { errors: { reference: `${read.details.reference} is already used by another patient of this clinic.` }, typed };
  if (saved.kind === 'conflict')
    return {
      errors: {
        reason:
          'Somebody else changed these details meanwhile. What you typed is kept here: open the page anew, compare, and change what is still wrong.',
      },
      typed,
    };
  await refreshPatient(therapist, patientId, today);
  redirect(`/patients/${patientId}/details`);
}
