'use client';

import { useActionState } from 'react';
import { FieldGroup } from '@/app/_form/field';
import { RefusedAbove } from '@/app/_form/refused-above';
import { typedBoxes } from '@/app/_form/typed-boxes';
import type { TypedCoverage } from '@/lib/forms/read-coverage-form';
import { COVERED_USES, EXCEPTION_REASONS } from '@/lib/record/coverage';
import { type CoverageFormState, saveCoverageAction } from './actions';

/** The form of one coverage rule. */
export function CoverageForm({ id, start }: { readonly id: string; readonly start: TypedCoverage }) {
  const [state, send, busy] = useActionState<CoverageFormState, FormData>(saveCoverageAction, { errors: {}, typed: null });
  const typed = state.typed ?? start;
  const idOf = (box: string) => `${id}/${box}`;
  const { text, choice } = typedBoxes(typed, state.errors, idOf);
  return (
    <form className="panel form" action={send} noValidate>
      <RefusedAbove errors={state.errors} idOf={idOf} />
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
            {choice(`${use}/clock`, 'Periods', CLOCKS, null)}
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

const CLOCKS = [
  { key: 'rolling', words: 'look back from each day' },
  { key: 'fixed', words: 'one after another from the first day' },
];
