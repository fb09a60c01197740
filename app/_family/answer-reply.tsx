'use client';

import { useActionState } from 'react';
import { type KeptReply, REPLY_BOUNDS, whenTold } from '@/lib/observations/family-reply';
import { type AnswerReplyState, answerReplyAction } from './answer-reply-action';

type Props = {
  readonly patientId: string;
  readonly reply: Pick<KeptReply, 'replyId' | 'day' | 'time'> & { readonly number: number };
  readonly submissionId: string;
  /** Where to go on afterwards; left out: to the replies, where what was noted stands. */
  readonly back?: string;
};

/** What was done about one reply of the family. Works without script as a plain form. */
export function AnswerReply({ patientId, reply, submissionId, back }: Props) {
  const [state, send, busy] = useActionState<AnswerReplyState, FormData>(answerReplyAction, null);
  const typed = state?.typed;
  return (
    <form action={send} className="answer-form" key={typed ? 'typed' : 'start'} aria-label={`Answer to the reply of ${whenTold(reply)}`}>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="replyId" value={reply.replyId} />
      <input type="hidden" name="number" value={reply.number} />
      <input type="hidden" name="submissionId" value={submissionId} />
      {back && <input type="hidden" name="back" value={back} />}
      <label>
        What was done
        <select name="did" key={typed?.did} defaultValue={typed?.did ?? ''} required>
          <option value="" disabled>
            Choose one
          </option>
          <option value="rung">rung</option>
          <option value="tried">tried, nobody answered: still to be done</option>
          <option value="seen">seen, nothing to do</option>
        </select>
      </label>
      <label>
        In a few words
        <input type="text" name="words" maxLength={REPLY_BOUNDS.answer} defaultValue={typed?.words ?? ''} />
      </label>
      <button className="button" type="submit" aria-disabled={busy}>
        Note it
      </button>
      <p className="refusal" role="status">
        {state?.refusal ?? ''}
      </p>
    </form>
  );
}
