'use client';

import { useActionState } from 'react';
import { type MatchState, matchMeasurerAction } from './actions';

type Props = {
  readonly text: string;
  readonly digest: string;
  /** How many states of the matches there were when the page was opened: a form over another one is refused. */
  readonly number: number;
  /** The page of the list that is opened again. */
  readonly page: number;
  readonly people: readonly { readonly id: string; readonly name: string }[];
  /** What stands: a person’s id, `outsider`, `left`, or nothing. */
  readonly whose: string;
  readonly role: string;
  readonly longest: number;
};

/** Says whose one text is. A refused form keeps what was chosen and typed; the select is told by its key, as in `typedBoxes`. */
export function MatchForm({ text, digest, number, page, people, whose, role, longest }: Props) {
  const [{ refusal, typed }, send, busy] = useActionState<MatchState, FormData>(matchMeasurerAction, { refusal: '', typed: null });
  const chosen = typed?.whose ?? whose;
  return (
    <form action={send} className="answer-form" key={typed ? 'typed' : 'start'} aria-label={`Whose is ${text}`} noValidate>
      <input type="hidden" name="digest" value={digest} />
      <input type="hidden" name="number" value={number} />
      <input type="hidden" name="page" value={page} />
      <label>
        Whose it is
        <select name="whose" defaultValue={chosen} key={chosen}>
          <option value="">not said</option>
          {people.map((one) => (
            <option key={one.id} value={one.id}>
              {one.name}
            </option>
          ))}
          <option value="outsider">somebody outside</option>
          <option value="left">leave it as it stands</option>
        </select>
      </label>
      <label>
        What they are, outside
        <input type="text" name="role" defaultValue={typed?.role ?? role} maxLength={longest} placeholder="carer at home" />
      </label>
      <button className="button" type="submit" aria-disabled={busy}>
        Keep it
      </button>
      <p className="refusal" role="status">
        {refusal}
      </p>
    </form>
  );
}
