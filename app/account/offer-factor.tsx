'use client';

import { useActionState, useState } from 'react';
import { FactorPicture } from '@/app/_auth/factor-picture';
import { RecoveryCodes } from '@/app/_auth/recovery-code-list';
import type { FactorOffer } from '@/app/_auth/second-factor';
import { withoutReset } from '@/app/_auth/without-reset';
import { Field } from '@/app/_form/field';
import { type AccountState, turnOnFactorAction } from './actions';
import { CurrentPassword } from './current-password';

/** Setting a second factor up: the picture, then a code from the authenticator, then the recovery codes. */
export function OfferFactor({ offer: fresh }: { readonly offer: FactorOffer }) {
  const [state, turnOn, busy] = useActionState<AccountState, FormData>(turnOnFactorAction, { errors: {} });
  const [offer] = useState(fresh);
  const [isOpen, setOpen] = useState(false);
  return (
    <section className="panel" aria-labelledby="factor-head">
      <h2 id="factor-head">Second factor</h2>
      {state.recoveryCodes ? (
        <>
          <p role="status">Your second factor is on. From now on you are asked for its code when you sign in.</p>
          <RecoveryCodes codes={state.recoveryCodes} />
          <p>
            <a className="button" href="/account">
              I have kept them
            </a>
          </p>
        </>
      ) : (
        <>
          <p>Off. With one, whoever learns your password still needs the authenticator on your phone.</p>
          {isOpen ? (
            <form className="form" method="post" onSubmit={withoutReset(turnOn)}>
              <FactorPicture offer={offer} />
              <Field id="code" label="Code it shows now" refusal={state.errors.code}>
                {(wiring) => <input {...wiring} autoComplete="one-time-code" inputMode="numeric" required />}
              </Field>
              <CurrentPassword id="current-for-factor" refusal={state.errors.current} />
              <div className="actions">
                <button type="submit" className="button main" aria-disabled={busy}>
                  Turn it on
                </button>
              </div>
            </form>
          ) : (
            <button type="button" className="button" onClick={() => setOpen(true)}>
              Set up a second factor
            </button>
          )}
        </>
      )}
    </section>
  );
}
