import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { AnsweredPrompt, AnswerRow } from '@/app/_patient/answered-prompt';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { PromptView } from '@/app/_patient/prompt-view';
import styles from '@/app/_patient/schedule.module.css';
import { loadPatient } from '@/app/_record/load-patient';
import { answerTo } from '@/lib/prompts/decide-prompts';

export const metadata: Metadata = { title: 'What was proposed and answered' };

/** The life of one patient's prompts: open ones, those that an answer keeps at rest, and every answer ever given. */
export default async function PromptsPage({ params }: { params: Promise<{ patientId: string }> }) {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/prompts`);
  const { record, analysis, prompts, raised, answers, today, clinic, dates } = await loadPatient(therapist, patientId);
  const mayWrite = therapist.role !== 'read-only';
  const resting = raised.flatMap((prompt) => {
    const answer = prompts.some((open) => open.cause === prompt.cause) ? undefined : answerTo(prompt, answers);
    return answer ? [{ prompt, answer }] : [];
  });
  return (
    <main id="main">
      <PatientTitle record={record} today={today}>
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      <h2 className="section-head">
        Open <span className="head-note">{prompts.length}</span>
      </h2>
      {prompts.length === 0 && <p className="nothing-listed secondary">Nothing is proposed that was not answered.</p>}
      {prompts.map((prompt) => (
        <PromptView
          key={prompt.cause}
          prompt={prompt}
          step={{ title: prompt.title, reasons: [prompt, ...prompt.also], number: null }}
          patientId={patientId}
          today={today}
          mayAnswer={mayWrite}
          dates={dates}
          pieces={record.pieces}
          policy={analysis.policy}
          first={false}
        />
      ))}
      <h2 className="section-head">
        Answered, and nothing new since <span className="head-note">{resting.length}</span>
      </h2>
      {resting.length === 0 && <p className="nothing-listed secondary">No prompt rests on an answer.</p>}
      <ul className={styles.answerList}>
        {resting.map(({ prompt, answer }) => (
          <AnsweredPrompt
            key={prompt.cause}
            prompt={prompt}
            answer={answer}
            patientId={patientId}
            mayWrite={mayWrite}
            timeZone={clinic.timeZone}
          />
        ))}
      </ul>
      <h2 className="section-head">
        Every answer <span className="head-note">{answers.length}</span>
      </h2>
      {answers.length === 0 && <p className="nothing-listed secondary">None yet. Answers are kept here with who, when and why.</p>}
      <ul className={styles.answerList}>
        {[...answers].reverse().map((answer) => (
          <AnswerRow key={answer.answerId} answer={answer} timeZone={clinic.timeZone} />
        ))}
      </ul>
      <p className="protocol-line">An answer is never changed. A declined prompt returns by itself when the data behind it change.</p>
    </main>
  );
}
