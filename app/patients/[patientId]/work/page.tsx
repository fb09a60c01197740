import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { StateHistory } from '@/app/_shell/state-history';
import { FactsForm } from '@/app/_work/facts-form';
import { notedHistory } from '@/db/patients/noted';
import { typedFacts } from '@/lib/forms/read-work-facts';
import { WORK_FACTS } from '@/lib/record/work-facts-schema';
import { workSentences } from '@/lib/summary/work-words';

export const metadata: Metadata = { title: 'For the work' };

/** Who a person is for the work: its form, and every state it was in. */
export default async function WorkPage({ params }: { params: Promise<{ patientId: string }> }) {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/work`);
  const { record, clinic, today } = await loadPatient(therapist, patientId);
  const history = await notedHistory(therapist, patientId, 'facts');
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying="For the work: whom to call, the referral, what happened">
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      {therapist.role === 'read-only' ? (
        <p className="nothing-yet">{(record.facts && workSentences(record.facts, today)) || 'Nothing is written down.'}</p>
      ) : (
        <FactsForm
          key={record.factsNumber}
          patientId={patientId}
          submissionId={crypto.randomUUID()}
          number={record.factsNumber}
          today={today}
          start={typedFacts(record.facts ?? undefined)}
        />
      )}
      <StateHistory
        states={history.map((one) => ({
          ...one,
          stood: one.content === null ? 'nothing' : workSentences(WORK_FACTS.parse(one.content), today) || 'nothing',
        }))}
        timeZone={clinic.timeZone}
        head="What stood"
        unsaid="written down"
      />
    </main>
  );
}
