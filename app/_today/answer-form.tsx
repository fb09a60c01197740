import { AnswerReply } from '@/app/_family/answer-reply';
import { ACT_WORDS, bookedAt, doneAt, quickDays } from '@/app/_patient/after-acting';
import { MoveDate } from '@/app/_patient/move-date';
import { PromptAnswers } from '@/app/_patient/prompt-answers';
import { loadPatient } from '@/app/_record/load-patient';
import type { Therapist } from '@/db/therapist';
import type { WorkRow } from '@/db/worklist/work-lines';
import { replyParts } from '@/lib/observations/family-reply';
import { OF_BOOKINGS, OF_REPLIES } from '@/lib/schedule/scheduled-date';
import { addDays } from '@/lib/units/calendar-day';
import styles from './today.module.css';

/** What can be said to one line of the worklist: the three answers to its prompt; or where its date is seen to, or another day for it. */
export async function AnswerForm({ therapist, row, back }: { therapist: Therapist; row: WorkRow; back: string }) {
  const { prompts, dates, record, today } = await loadPatient(therapist, row.patientId);
  const prompt = prompts.find((one) => one.cause === row.prompt?.cause);
  if (prompt) {
    return (
      <div className={styles.answerBeside}>
        <p>{[prompt.title, ...prompt.facts].join(' ')}</p>
        <PromptAnswers
          patientId={row.patientId}
          cause={prompt.cause}
          actWords={ACT_WORDS[prompt.action]}
          earliest={addDays(today, 1)}
          latest={addDays(today, 366)}
          quick={quickDays(today, dates)}
          book={bookedAt(row.patientId, prompt.action)}
          back={back}
        />
      </div>
    );
  }
  const date = dates.find((one) => one.key === row.key);
  if (date) {
    const reply = OF_REPLIES.includes(date.kind) && record.replies.find(({ replyId }) => date.key.endsWith(`:${replyId}`));
    if (reply)
      return (
        <div className={styles.answerBeside}>
          <p>{replyParts(reply).join('; ')}</p>
          <AnswerReply patientId={row.patientId} reply={reply} submissionId={crypto.randomUUID()} back={back} />
        </div>
      );
    const { words, to } = doneAt(row.patientId, date, record.pieces);
    return (
      <div className={styles.answerBeside}>
        <p>
          <a className="button" href={to} data-soft="">
            {words}
          </a>
        </p>
        {OF_BOOKINGS.includes(date.kind) ? (
          <p>
            <a href={`/patients/${row.patientId}/bookings`} data-soft="">
              Move it, or say what became of it
            </a>
          </p>
        ) : (
          <MoveDate patientId={row.patientId} dateKey={date.key} computed={date.computed} day={date.day} today={today} back={back} />
        )}
      </div>
    );
  }
  return <p>This line ends by itself when the first ladder is measured, or has changed since the page was opened.</p>;
}
