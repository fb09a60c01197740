'use client';

import { useActionState } from 'react';
import { FieldGroup } from '@/app/_form/field';
import { NotSaved } from '@/app/_form/not-saved';
import { typedBoxes } from '@/app/_form/typed-boxes';
import { LONGEST_REASON } from '@/lib/forms/read-reason';
import { type LeavingState, saveLeavingAction } from './actions';

type Props = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly number: number;
  readonly today: string;
  readonly criteria: readonly string[];
  readonly start: Readonly<Record<string, string>>;
};

/** The clinic's criteria, each ticked where it is met; who supplies garments from now on. Not all need to be met: a person decides. */
export function LeavingForm({ patientId, submissionId, number, today, criteria, start }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<LeavingState, FormData>(saveLeavingAction, { errors: {}, typed: null });
  const boxes = typed ?? start;
  const { text, words } = typedBoxes(boxes, errors);
  return (
    <form className="panel form" action={send} noValidate aria-label="Before they leave" key={typed ? 'typed' : 'start'}>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <input type="hidden" name="number" value={number} />
      <input type="hidden" name="criteria" value={criteria.join('\n')} />
      <NotSaved errors={errors} />
      <FieldGroup id="criteria-met" label="Tick what is met" hint="Not all need to be: a person decides.">
        {criteria.map((one, at) => (
          <label key={one} className="choice">
            <input type="checkbox" name={`met${at}`} value="yes" defaultChecked={boxes[`met${at}`] === 'yes'} />
            {one}
          </label>
        ))}
      </FieldGroup>
      <div className="two-columns">
        {text('day', 'Gone through on', 'The day of the talk.', { type: 'date', max: today })}
        {text('supplies', 'Who supplies garments from now on', 'Stands on the page they take home.', { maxLength: 200 })}
      </div>
      {words('note', 'Note', undefined, 2)}
      {number > 0 &&
        text('reason', 'Why it is changed', 'Stands in the history; the state before stays readable.', { maxLength: LONGEST_REASON.other })}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Keep it
        </button>
      </div>
    </form>
  );
}
