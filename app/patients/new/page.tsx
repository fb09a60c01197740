import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { clinicOf } from '@/db/clinic/clinic';
import { PatientForm } from '../patient-form';
import { addPatientAction } from './actions';

export const metadata: Metadata = { title: 'New patient' };

/** Adds a patient; who referred them, whom to call and what happened come next, on the form that keeps them. */
export default async function NewPatientPage() {
  const therapist = await requireRole('lead', 'therapist');
  const { timeZone } = await clinicOf(therapist);
  return (
    <main id="main" className="narrow">
      <h1>New patient</h1>
      <PatientForm
        save={addPatientAction}
        submissionId={crypto.randomUUID()}
        today={todayIn(timeZone)}
        saveWords="Add patient"
        saveThen={{ value: 'work', words: 'Add, and write the referral down' }}
        leave={{ to: '/patients', words: 'Leave without adding' }}
      />
    </main>
  );
}
