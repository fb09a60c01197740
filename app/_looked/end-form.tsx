'use client';

import { useActionState } from 'react';
import { typedBoxes } from '@/app/_form/typed-boxes';
import { endLookedAction, type LookedFormState } from './actions';

type Props = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly observationId: string;
  readonly number: number;
  readonly today: string;
  /** What it is, in words: every form of the page says its own. */
  readonly what: string;
};

/** Says that a mark is gone on a day. */
export function GoneForm(props: Props) {
  return <EndForm {...props} intent="gone" />;
}

/** Takes an observation back with a reason. */
export function TakeBackForm(props: Props) {
  return <EndForm {...props} intent="take back" />;
}

/** One end of an observation, a form of its own: Enter in its box does what its button says. */
function EndForm({
  patientId,
  submissionId,
  observationId,
  number,
  today,
  what,
  intent,
}: Props & { readonly intent: 'gone' | 'take back' }) {
  const [{ errors, typed }, send, busy] = useActionState<LookedFormState, FormData>(endLookedAction, { errors: {}, typed: null });
  const { text } = typedBoxes(typed ?? { gone: today }, errors, (box) => `${observationId}-${box}`);
  const isGone = intent === 'gone';
  return (
    <form
      action={send}
      className="answer-form"
      aria-label={`${isGone ? 'Gone' : 'Take back'}: ${what}`}
      noValidate
      key={typed ? 'typed' : 'start'}
    >
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <input type="hidden" name="observationId" value={observationId} />
      <input type="hidden" name="number" value={number} />
      <input type="hidden" name="intent" value={intent} />
      {isGone
        ? text('gone', 'Gone on', undefined, { type: 'date', max: today })
        : text('reason', 'Why it is taken back', undefined, { maxLength: 200 })}
      <button className="button" type="submit" aria-disabled={busy}>
        {isGone ? 'It is gone' : 'Take it back'}
      </button>
      <p className="refusal" role="status">
        {errors.form ?? ''}
      </p>
    </form>
  );
}
