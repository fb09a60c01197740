import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { CourseTable } from '@/app/_course/course-table';
import { PhaseForm } from '@/app/_course/phase-form';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { StateHistory } from '@/app/_shell/state-history';
import { courseHistory } from '@/db/patients/course';
import type { Phase } from '@/lib/course/phases';
import { ENDED_WORDS, PHASE_WORDS, shownPhases } from '@/lib/summary/phase-words';
import { showDay } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Course of care' };

type Asked = { params: Promise<{ patientId: string }>; searchParams: Promise<{ phase?: string }> };

/** The course of care of a patient: its phases, a form to begin one or correct one, and every state it was in. */
export default async function CoursePage({ params, searchParams }: Asked) {
  const [{ patientId }, { phase: asked = '' }] = [await params, await searchParams];
  const therapist = await requireTherapist(`/patients/${patientId}/course`);
  const { record, analysis, clinic, today } = await loadPatient(therapist, patientId);
  const mayWrite = therapist.role !== 'read-only';
  const history = await courseHistory(therapist, patientId);
  const number = history[0]?.number ?? 0;
  const at = /^\d{1,4}$/.test(asked) ? Number(asked) : -1;
  const phase = record.phases[at];
  const visits = [...record.visits].reverse().map(({ day }) => ({ day, words: showDay(day) }));
  const here = `/patients/${patientId}/course`;
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying="Course of care: phases, and the visit that verdicts of each compare with">
        <a className="button" href={`/patients/${patientId}/leaving`} data-soft="">
          Before they leave
        </a>
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      {record.phases.length === 0 ? (
        <p className="nothing-yet">No phase is noted. All visits are one, and verdicts compare with the first.</p>
      ) : (
        <CourseTable phases={shownPhases(analysis)} {...(mayWrite && { correct: (place: number) => `${here}?phase=${place}#form` })} />
      )}
      {mayWrite && (
        <>
          <h2 className="section-head" id="form">
            {phase ? `Correct phase ${at + 1}` : 'Begin a phase, or end the course'}
          </h2>
          <PhaseForm
            key={`${number} ${at}`}
            patientId={patientId}
            submissionId={crypto.randomUUID()}
            today={today}
            number={number}
            corrected={phase ? { at, phase } : null}
            visits={visits.filter(({ day }, index) => visits.findIndex((one) => one.day === day) === index)}
            holdAskDays={analysis.policy.holdAskDays}
          />
        </>
      )}
      <StateHistory
        states={history.map((one) => ({ ...one, stood: one.phases.map(inShort).join('; ') || 'none' }))}
        timeZone={clinic.timeZone}
        head="Phases"
        unsaid="begun"
      />
    </main>
  );
}

function inShort({ kind, from, until, endedAs }: Phase): string {
  return [endedAs ? ENDED_WORDS[endedAs] : PHASE_WORDS[kind], showDay(from), ...(until ? [`to ${showDay(until)}`] : [])].join(' ');
}
