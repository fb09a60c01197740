'use client';

import { useActionState } from 'react';
import { Field } from '@/app/_form/field';
import { type ChooseCoverageState, chooseCoverageAction } from './choose-coverage';

type Props = {
  readonly patientId: string;
  readonly rules: readonly { readonly id: string; readonly payer: string }[];
  readonly chosen: string;
  readonly from: string;
};

/** Which payer's rule holds for a patient, and from which day it counts. */
export function CoverageChoice({ patientId, rules, chosen, from }: Props) {
  const [state, send, busy] = useActionState<ChooseCoverageState, FormData>(chooseCoverageAction, { refusal: null, typed: null });
  const typed = state.typed ?? { rule: chosen, from };
  return (
    <form className="form" action={send} noValidate>
      <input type="hidden" name="patientId" value={patientId} />
      <div className="two-columns">
        <Field id="coverage-rule" label="Payer">
          {(wiring) => (
            <select {...wiring} name="rule" key={typed.rule} defaultValue={typed.rule}>
              <option value="">none</option>
              {rules.map((rule) => (
                <option key={rule.id} value={rule.id}>
                  {rule.payer}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field id="coverage-from" label="Counted from" refusal={state.refusal ?? undefined}>
          {(wiring) => <input {...wiring} name="from" type="date" defaultValue={typed.from} />}
        </Field>
      </div>
      <div className="actions">
        <button type="submit" className="button" aria-disabled={busy}>
          Save
        </button>
      </div>
    </form>
  );
}
