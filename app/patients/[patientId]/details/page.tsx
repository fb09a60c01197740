import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { requireTherapist } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { HistoryTable } from '@/app/_shell/history-table';
import { clinicOf } from '@/db/clinic/clinic';
import { patientStates } from '@/db/patients/patients';
import { peopleOf } from '@/db/people/people';
import { affectedInWords } from '@/lib/record/patient-record';
import { showDay } from '@/lib/units/calendar-day';
import { PatientForm } from '../../patient-form';
import { typedFrom } from '../../read-patient';
import { correctPatientAction } from './actions';

export const metadata: Metadata = { title: 'Details of a patient' };

/** A patient's details: how they stand, a form to correct them, and every state they were in. */
export default async function DetailsPage({ params }: { params: Promise<{ patientId: string }> }) {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/details`);
  const states = await patientStates(therapist, patientId);
  const now = states.at(-1);
  if (!now) notFound();
  const [people, { timeZone }] = [await peopleOf(therapist), await clinicOf(therapist)];
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>{now.name ?? now.reference}</h1>
          <p className="secondary">Details. Growth is counted from the date of birth; what is affected decides how a change is judged.</p>
        </div>
        <BackToPatient patientId={patientId} />
      </div>
      {therapist.role !== 'read-only' && (
        <PatientForm
          key={now.revision}
          save={correctPatientAction}
          submissionId={crypto.randomUUID()}
          today={todayIn(timeZone)}
          start={{ patientId, revision: now.revision, typed: typedFrom(now) }}
          saveWords="Save the correction"
          leave={{ to: `/patients/${patientId}`, words: 'Leave as it is' }}
        />
      )}
      <h2 className="section-head">
        History <span className="count">{states.length}</span>
      </h2>
      <HistoryTable
        revisions={states}
        names={new Map(people.map(({ id, name }) => [id, name]))}
        timeZone={timeZone}
        first="added"
        more={[
          { head: 'Reference', show: ({ reference }) => reference },
          { head: 'Name', show: ({ name }) => name ?? 'none' },
          { head: 'Born', show: ({ born }) => showDay(born) },
          { head: 'Growth table', show: ({ sex }) => TABLES[sex] },
          { head: 'Diagnosis group', show: ({ diagnosisGroup }) => diagnosisGroup },
          { head: 'Affected', show: (state) => affectedInWords(state) || 'none' },
        ]}
      />
    </main>
  );
}

const TABLES = { F: 'girls’ and women’s', M: 'boys’ and men’s', X: 'none' } as const;
