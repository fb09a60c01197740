import type { KeptReply } from '@/lib/observations/family-reply';
import { answerInWords, replyParts } from '@/lib/observations/family-reply';
import { asSentence } from '@/lib/units/as-sentence';
import { showDay } from '@/lib/units/calendar-day';

/** How many replies the report lists, the newest; older ones are counted. */
const MOST = 6;

/** What the family sent back, the newest first, as told, and what was done about it; nothing where it sent nothing. */
export function FamilySection({ replies }: { replies: readonly KeptReply[] }) {
  if (replies.length === 0) return null;
  const left = replies.length - MOST;
  return (
    <section>
      <h3>Told by the family</h3>
      <p>As told, not measured.</p>
      <ul>
        {[...replies]
          .reverse()
          .slice(0, MOST)
          .map((reply) => (
            <li key={reply.replyId}>
              {`${showDay(reply.day)}: ${asSentence(replyParts(reply))} ${reply.answer ? `${answerInWords(reply.answer, showDay(reply.answer.day))}.` : 'Not answered yet.'}`}
            </li>
          ))}
      </ul>
      {left > 0 && <p>{`${left} older ${left === 1 ? 'reply is' : 'replies are'} not listed.`}</p>}
    </section>
  );
}
