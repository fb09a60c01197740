import type { KeptRecord } from '@/db/patients/records';
import { answerInWords, type KeptReply, replyParts, whenTold } from '@/lib/observations/family-reply';
import { NOBODY_TO_RING, ringWords } from '@/lib/record/work-facts';
import { repliesAsked } from '@/lib/schedule/asked-in-dates';
import type { ScheduledDate } from '@/lib/schedule/scheduled-date';
import { asSentence } from '@/lib/units/as-sentence';
import { showDay } from '@/lib/units/calendar-day';
import { AnswerReply } from './answer-reply';
import styles from './reply.module.css';

type Props = {
  readonly record: Pick<KeptRecord, 'replies' | 'facts'>;
  readonly dates: readonly ScheduledDate[];
  readonly patientId: string;
  readonly mayAnswer: boolean;
};

/** What the dates say that the family asks for: to be rung, with the way to note it; anything else told stands as one line. Nothing where all is answered, and after a death. */
export function AskedByFamily({ record: { replies, facts }, dates, patientId, mayAnswer }: Props) {
  const asked = repliesAsked(dates, replies);
  const { calls } = asked;
  const looks = asked.looks.length;
  if (calls.length + looks === 0) return null;
  const ring = ringWords(facts);
  const all = `/patients/${patientId}/replies`;
  return (
    <section className={styles.asked} aria-label="Asked by the family">
      {calls.map((reply) => {
        return (
          <div key={reply.replyId} className={styles.askedOne}>
            <div>
              <h3>Call back: the family asks to be rung</h3>
              <p>
                {`Told by the family, ${whenTold(reply)}: ${asSentence(replyParts(reply))}${tried(reply)}`}{' '}
                {ring ? `${ring}.` : <Nobody patientId={patientId} />}
              </p>
            </div>
            {mayAnswer && <AnswerReply patientId={patientId} reply={reply} submissionId={crypto.randomUUID()} />}
          </div>
        );
      })}
      {looks > 0 && (
        <p>
          <a href={all} data-soft="">
            {`${looks} ${looks === 1 ? 'reply' : 'replies'} of the family to look at`}
          </a>
        </p>
      )}
    </section>
  );
}

/** That a call was tried before; nothing where none was. */
function tried({ answer }: KeptReply): string {
  return answer ? ` ${answerInWords(answer, showDay(answer.day))}.` : '';
}

/** Nobody to call is written down: that, and the way to write somebody down. */
function Nobody({ patientId }: { patientId: string }) {
  return (
    <>
      <strong>{`${NOBODY_TO_RING}.`}</strong>{' '}
      <a href={`/patients/${patientId}/work`} data-soft="">
        Write down whom to call
      </a>
    </>
  );
}
