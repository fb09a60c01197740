'use client';

import { useActionState } from 'react';
import { Field, FieldGroup } from '@/app/_shell/field';
import { EXCEPTION_REASONS } from '@/lib/record/coverage';
import { COVERED_USES, type TypedCoverage } from '@/lib/record/read-coverage-form';
import { type CoverageFormState, saveCoverageAction } from './actions';

/** The form of one coverage rule. */
export function CoverageForm({ id, start }: { readonly id: string; readonly start: TypedCoverage }) {
  const [state, send, busy] = useActionState<CoverageFormState, FormData>(saveCoverageAction, { errors: {}, typed: null });
  const typed = state.typed ?? start;
  const text = (box: string, label: string, hint?: string) => (
    <Field id={`${id}/${box}`} label={label} hint={hint} refusal={state.errors[box]}>
      {(wiring) => <input {...wiring} name={box} defaultValue={typed[box] ?? ''} autoComplete="off" maxLength={400} />}
    </Field>
  );
  return (
    <form className="panel form" action={send} noValidate>
      {Object.keys(state.errors).length > 0 && (
        <p className="refused-box" role="alert">
          Nothing is saved yet: look at the boxes below.
        </p>
      )}
      <input type="hidden" name="id" value={id} />
      <div className="two-columns">
        {text('payer', 'Payer')}
        {text('source', 'Where the rule is written')}
      </div>
      {COVERED_USES.map((use) => (
        <fieldset key={use} className="field">
          <legend>{use === 'other' ? 'Other pieces' : `Pieces worn by ${use}`}</legend>
          <div className="four-columns">
            {text(`${use}/quantity`, 'Pieces for each limb')}
            {text(`${use}/months`, 'in so many months')}
            <Field id={`${id}/${use}/clock`} label="Periods" refusal={state.errors[`${use}/clock`]}>
              {(wiring) => (
                <select {...wiring} name={`${use}/clock`} key={typed[`${use}/clock`]} defaultValue={typed[`${use}/clock`] ?? 'rolling'}>
                  <option value="rolling">look back from each day</option>
                  <option value="fixed">one after another from the first day</option>
                </select>
              )}
            </Field>
          </div>
        </fieldset>
      ))}
      <FieldGroup id={`${id}/exceptions`} label="Covered outside the clock" hint="Reasons of an order that the clock does not count.">
        {EXCEPTION_REASONS.map((reason) => (
          <label key={reason} className="choice">
            <input type="checkbox" name={`exception/${reason}`} value="yes" defaultChecked={typed[`exception/${reason}`] === 'yes'} />
            {reason}
          </label>
        ))}
      </FieldGroup>
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Save the rule
        </button>
      </div>
    </form>
  );
}
