'use client';

import { useActionState } from 'react';
import { NotSaved } from '@/app/_form/not-saved';
import { typedBoxes } from '@/app/_form/typed-boxes';
import { type LeavingTextsState, saveLeavingTextsAction } from './actions';

type Props = {
  /** How many states there were when the page was opened: a form over another one is refused. */
  readonly number: number;
  readonly start: Readonly<Record<string, string>>;
  readonly languages: readonly { readonly language: string; readonly name: string }[];
};

/** Criteria of leaving, one a line, and how to come back, by language. */
export function LeavingTextsForm({ number, start, languages }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<LeavingTextsState, FormData>(saveLeavingTextsAction, { errors: {}, typed: null });
  const { words } = typedBoxes(typed ?? start, errors);
  return (
    <form className="panel form" action={send} noValidate aria-label="Leaving" key={typed ? 'typed' : 'start'}>
      <input type="hidden" name="number" value={number} />
      <NotSaved errors={errors} />
      {words('criteria', 'Gone through before somebody leaves', 'One criterion a line.', 8)}
      {languages.map(({ language, name }) => (
        <div key={language} lang={language}>
          {words(`wayBack-${language}`, `How to come back, ${name}`, undefined, 4)}
        </div>
      ))}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Save
        </button>
      </div>
    </form>
  );
}
