import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { LeavingForm } from '@/app/_leaving/leaving-form';
import letterStyles from '@/app/_letter/letter.module.css';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { EveryState } from '@/app/_shell/every-state';
import { PrintButton } from '@/app/_shell/print-button';
import { clinicDetailsOf } from '@/db/clinic/clinic-details';
import { clinicTextsOf } from '@/db/clinic/family-texts';
import { leavingTextsOf } from '@/db/clinic/leaving-texts';
import { notedHistory } from '@/db/patients/noted';
import type { Leaving } from '@/lib/course/leaving';
import { LEAVING } from '@/lib/course/leaving-schema';
import { deathIn } from '@/lib/course/phases';
import { afterwardsWords } from '@/lib/summary/afterwards';
import { emergencyOf } from '@/lib/summary/family/emergency-number';
import { leavingSentence } from '@/lib/summary/leaving-words';

export const metadata: Metadata = { title: 'Before they leave' };

/** What is gone through before somebody leaves, the last report, and the page they take home: who supplies, how to come back, whom to call. */
export default async function LeavingPage({ params }: { params: Promise<{ patientId: string }> }) {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/leaving`);
  const { record, clinic, today } = await loadPatient(therapist, patientId);
  const [texts, family, details, history] = await Promise.all([
    leavingTextsOf(therapist),
    clinicTextsOf(therapist),
    clinicDetailsOf(therapist),
    notedHistory(therapist, patientId, 'leaving'),
  ]);
  const mayWrite = therapist.role !== 'read-only' && !deathIn(record.phases);
  const { language, words } = afterwardsWords(record.head.language);
  const { phone, phoneHours, emergency } = family[language] ?? {};
  const { leaving } = record;
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying="Before they leave: criteria, the last report, the page to take home">
        <a className="button" href={`/patients/${patientId}/report`} data-soft="">
          Last report
        </a>
        <a className="button" href={`/patients/${patientId}/course`} data-soft="">
          End the course
        </a>
        <PrintButton words="Print the page to take home" />
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      {mayWrite && (
        <LeavingForm
          key={record.leavingNumber}
          patientId={patientId}
          submissionId={crypto.randomUUID()}
          number={record.leavingNumber}
          today={today}
          criteria={texts.criteria}
          start={typedLeaving(leaving, texts.criteria, today)}
        />
      )}
      {!mayWrite && leaving && <p>{`${leavingSentence(leaving)}.`}</p>}
      <article className={letterStyles.letterSheet} lang={language} aria-labelledby="afterwards">
        <p className={letterStyles.letterClinic}>{clinic.name}</p>
        <h2 id="afterwards">{words.title}</h2>
        <p>{leaving?.supplies ? `${words.supplies}: ${leaving.supplies}.` : words.noSupplier}</p>
        <h3>{words.wayBack}</h3>
        <p>{texts.wayBack[language] || words.noWayBack}</p>
        <h3>{words.call}</h3>
        <p>{[phone, phoneHours].filter(Boolean).join('. ') || clinic.name}</p>
        <p>{words.emergency(emergency || emergencyOf(details))}</p>
      </article>
      <EveryState
        states={history.map((one) => ({
          ...one,
          key: String(one.number),
          said: one.content === null ? 'taken back' : leavingSentence(LEAVING.parse(one.content)),
        }))}
        timeZone={clinic.timeZone}
      />
    </main>
  );
}

/** The boxes as they stand: a criterion that was met under the same words is ticked again. */
function typedLeaving(leaving: Leaving | null, criteria: readonly string[], today: string): Readonly<Record<string, string>> {
  const met = new Set(leaving?.criteria.filter((one) => one.met).map((one) => one.words));
  return {
    ...{ day: leaving?.day ?? today, supplies: leaving?.supplies ?? '', note: leaving?.note ?? '' },
    ...Object.fromEntries(criteria.flatMap((one, at) => (met.has(one) ? [[`met${at}`, 'yes']] : []))),
  };
}
