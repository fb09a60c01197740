import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { AnswerReply } from '@/app/_family/answer-reply';
import styles from '@/app/_family/reply.module.css';
import { MarksPicture } from '@/app/_looked/marks-picture';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { answerInWords, isSettled, type KeptReply, replyParts, whenTold } from '@/lib/observations/family-reply';
import { idsAsked } from '@/lib/schedule/asked-in-dates';
import { showDay } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Told by the family' };

/** What the family sent back by the links of its pages, the newest first, theirs as told; and what was done about each. */
export default async function RepliesPage({ params }: { params: Promise<{ patientId: string }> }) {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/replies`);
  const { record, analysis, dates, today } = await loadPatient(therapist, patientId);
  const mayWrite = therapist.role !== 'read-only';
  const asked = idsAsked(dates, record.replies);
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying="Told by the family: theirs, no measurement">
        {mayWrite && (
          <a className="button" href={`/patients/${patientId}/bookings`} data-soft="">
            Book a visit
          </a>
        )}
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      {record.replies.length === 0 ? (
        <p className="nothing-yet">The family has not sent anything back yet.</p>
      ) : (
        [...record.replies].reverse().map((reply) => {
          const named = whenTold(reply);
          return (
            <section key={reply.replyId} className={`panel ${styles.told}`} aria-label={`Reply of ${named}`}>
              <Told reply={reply} named={named} asked={asked.has(reply.replyId)} />
              {reply.marks[0] && (
                <MarksPicture
                  analysis={analysis}
                  limb={reply.marks[0].place}
                  marks={reply.marks.map(({ place }, at) => ({ observationId: String(at), place }))}
                  numbers={new Map(reply.marks.map((_, at) => [String(at), at + 1]))}
                />
              )}
              {!isSettled(reply) && mayWrite && <AnswerReply patientId={patientId} reply={reply} submissionId={crypto.randomUUID()} />}
            </section>
          );
        })
      )}
      <p className="protocol-line">
        What a family tells changes no figure and answers no proposal. Follow your local protocol and the prescriber.
      </p>
    </main>
  );
}

function Told({ reply, named, asked }: { reply: KeptReply; named: string; asked: boolean }) {
  const { answer } = reply;
  return (
    <div>
      <h2>{named}</h2>
      <ul className="plain-list">
        {replyParts(reply).map((part) => (
          <li key={part}>{part}</li>
        ))}
      </ul>
      <p className="secondary">{`By the link of the page of ${showDay(reply.pageOf)}.`}</p>
      <p>
        {answer
          ? `${answerInWords(answer, showDay(answer.day))}.`
          : asked
            ? 'Not answered yet.'
            : 'It asks for nothing; nobody has to answer it.'}
      </p>
    </div>
  );
}
