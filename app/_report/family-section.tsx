import { answerInWords, type KeptReply, replyParts } from '@/lib/observations/family-reply';
import { asSentence } from '@/lib/units/as-sentence';
import { showDay } from '@/lib/units/calendar-day';

/** How many replies the report lists, the newest; older ones are counted. */
const MOST = 6;

/**
 * What the family sent back, the newest first, as told, and that it was answered: not the clinic's own note of the call. Nothing where it sent
 * nothing. `asked` are the ids of replies that are still to be answered.
 */
export function FamilySection({ replies, asked }: { replies: readonly KeptReply[]; asked: ReadonlySet<string> }) {
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
            <li key={reply.replyId}>{`${showDay(reply.day)}: ${asSentence(replyParts(reply))} ${becameInWords(reply, asked)}`}</li>
          ))}
      </ul>
      {left > 0 && <p>{`${left} older ${left === 1 ? 'reply is' : 'replies are'} not listed.`}</p>}
    </section>
  );
}

function becameInWords({ answer, replyId }: KeptReply, asked: ReadonlySet<string>): string {
  if (answer) return `${answerInWords({ ...answer, words: null }, showDay(answer.day))}.`;
  return asked.has(replyId) ? 'Not answered yet.' : '';
}
