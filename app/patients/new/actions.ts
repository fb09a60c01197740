'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { postedText } from '@/app/_form/posted';
import { clinicOf } from '@/db/clinic/clinic';
import { addPatient } from '@/db/patients/patients';
import type { PatientFormState } from '../patient-form';
import { readPatient, typedPatient } from '../read-patient';

/** Adds the patient and goes to their page, or on to the referral where that was asked for; or gives the form back with its reasons. Sent twice, it adds one. */
export async function addPatientAction(_before: PatientFormState, form: FormData): Promise<PatientFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = typedPatient(form);
  const read = readPatient(typed, todayIn((await clinicOf(therapist)).timeZone));
  if (read.kind === 'refused') return { errors: read.errors, typed };
  const posted = postedText(form);
  const submissionId = posted.submissionId || crypto.randomUUID();
  const saved = await addPatient(therapist, {
    submissionId,
    details: read.details,
  });
  if (saved.kind === 'saved' || saved.kind === 'already-saved')
    redirect(`/patients/${saved.patientId}${posted.then === 'work' ? '/work' : ''}`);
  return {
    errors: {
      reference: `${read.details.reference} is already used by another patient of this clinic.`,
    },
    typed,
  };
}
