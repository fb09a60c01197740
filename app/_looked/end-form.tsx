'use client';

import { useActionState } from 'react';
import { endLookedAction, type LookedFormState } from './actions';

type Props = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly observationId: string;
  readonly number: number;
  readonly today: string;
  /** What it is, in words: every form of the page says its own. */
  readonly what: string;
  readonly isMark: boolean;
};

/** Says that a mark is gone, or takes an observation back. */
export function EndForm({ patientId, submissionId, observationId, number, today, what, isMark }: Props) {
  const [{ errors }, send, busy] = useActionState<LookedFormState, FormData>(endLookedAction, { errors: {}, typed: null });
  return (
    <form action={send} className="answer-form" aria-label={`End: ${what}`} noValidate>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <input type="hidden" name="observationId" value={observationId} />
      <input type="hidden" name="number" value={number} />
      {isMark && (
        <label>
          Gone on
          <input type="date" name="gone" max={today} defaultValue={today} />
        </label>
      )}
      {isMark && (
        <button className="button" type="submit" name="intent" value="gone" aria-disabled={busy}>
          It is gone
        </button>
      )}
      <label>
        Why it is taken back
        <input type="text" name="reason" maxLength={200} />
      </label>
      <button className="button" type="submit" name="intent" value="take back" aria-disabled={busy}>
        Take it back
      </button>
      <p className="refusal" role="status">
        {errors.form ?? errors.gone ?? errors.reason ?? ''}
      </p>
    </form>
  );
}
