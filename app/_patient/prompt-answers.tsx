'use client';

import { useActionState } from 'react';
import { type AnswerState, answerPromptAction } from '@/app/_patient/actions';
import styles from './prompt.module.css';

type Props = {
  readonly patientId: string;
  readonly cause: string;
  readonly actWords: string;
  readonly earliest: string;
  readonly latest: string;
  /** Days that are often meant: a week, two, the next visit. */
  readonly quick: readonly { readonly day: string; readonly words: string }[];
  /** Where a visit for it is booked; left out where none is needed. */
  readonly book?: string | undefined;
  /** Where to go on afterwards; the patient when it is absent. */
  readonly back?: string;
};

/** Act, not now, not for this patient: three buttons of equal weight, no default. Works without script as plain forms. */
export function PromptAnswers({ patientId, cause, actWords, earliest, latest, quick, book, back }: Props) {
  const [state, answer, pending] = useActionState<AnswerState, FormData>(answerPromptAction, null);
  const hidden = (word: string) => (
    <>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="cause" value={cause} />
      <input type="hidden" name="answer" value={word} />
      {back && <input type="hidden" name="back" value={back} />}
    </>
  );
  return (
    <div className={styles.promptAnswers} data-prompt-answers="">
      <form action={answer}>
        {hidden('act')}
        <button className="button" type="submit" disabled={pending}>
          {actWords}
        </button>
      </form>
      <details>
        <summary className="button">Not now, ask again on…</summary>
        <form action={answer} className="answer-form">
          {hidden('not-now')}
          {quick.map(({ day, words }) => (
            <button key={words} className="button" type="submit" name="until" value={day} disabled={pending}>
              {words}
            </button>
          ))}
        </form>
        <form action={answer} className="answer-form">
          {hidden('not-now')}
          <label>
            Ask again on
            <input type="date" name="until" min={earliest} max={latest} required />
          </label>
          <button className="button" type="submit" disabled={pending}>
            Ask again then
          </button>
        </form>
      </details>
      <details>
        <summary className="button">Not for this patient…</summary>
        <form action={answer} className="answer-form">
          {hidden('not-for-this-patient')}
          <label>
            Why not
            <input type="text" name="reason" maxLength={300} required />
          </label>
          <button className="button" type="submit" disabled={pending}>
            Keep this answer
          </button>
        </form>
      </details>
      {book && (
        <a className="secondary" href={book}>
          Book a visit for it
        </a>
      )}
      <p className="refusal" role="status">
        {state?.cause === cause ? state.refusal : ''}
      </p>
    </div>
  );
}
