'use client';

import { useActionState } from 'react';
import { Field } from '@/app/_form/field';
import { saveTextsAction, type TextsState } from './actions';

type Props = {
  readonly language: string;
  readonly name: string;
  readonly start: Readonly<Record<string, string>>;
  /** Which emergency number stands while the box is empty, and where it comes from. */
  readonly emergencyEmpty: string;
  readonly defaults: { readonly care: string; readonly wait: string };
};

/** What the clinic says on the family page in one language. */
export function TextsForm({ language, name, start, emergencyEmpty, defaults }: Props) {
  const [state, send, busy] = useActionState<TextsState, FormData>(saveTextsAction, { refusal: null, typed: null });
  const typed = state.typed ?? start;
  const line = (box: string, label: string, hint?: string) => (
    <Field id={`${language}-${box}`} label={label} hint={hint}>
      {(wiring) => <input {...wiring} name={box} defaultValue={typed[box] ?? ''} autoComplete="off" maxLength={200} lang={language} />}
    </Field>
  );
  const hints = {
    care: `No washing words reach a page before the clinic keeps its own. Proposed: “${defaults.care}”`,
    wait: `Until you write your own, the page says: “${defaults.wait}” (clinic default).`,
  };
  const area = (box: 'care' | 'wait', label: string) => (
    <Field id={`${language}-${box}`} label={label} hint={hints[box]}>
      {(wiring) => <textarea {...wiring} name={box} rows={4} defaultValue={typed[box] ?? ''} maxLength={600} lang={language} />}
    </Field>
  );
  return (
    <form className="panel form" action={send} aria-label={name}>
      <h2 lang={language}>{name}</h2>
      {state.refusal && (
        <p className="refused-box" role="alert">
          {state.refusal}
        </p>
      )}
      <input type="hidden" name="language" value={language} />
      <p className="secondary">Without a phone number and words for the night each family page asks for them anew.</p>
      {area('care', 'How to wear and wash it')}
      {area('wait', 'When it is fine to wait')}
      <div className="two-columns">
        {line('phone', 'Phone', 'Begins as in the clinic’s details.')}
        {line('phoneHours', 'When somebody answers', 'A whole sentence, as it stands on the page.')}
        {line('night', 'At night and at weekends', 'A whole sentence: a number, or whom to call.')}
        {line('emergency', 'Emergency number', emergencyEmpty)}
      </div>
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Save
        </button>
      </div>
    </form>
  );
}
