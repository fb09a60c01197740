'use client';

import { useActionState, useState } from 'react';
import { FactorPicture } from '@/app/_auth/factor-picture';
import { RecoveryCodes } from '@/app/_auth/recovery-code-list';
import type { FactorOffer } from '@/app/_auth/second-factor';
import { withoutReset } from '@/app/_auth/without-reset';
import { Field } from '@/app/_form/field';
import { NewPassword } from '@/app/_form/new-password';
import { type JoinState, joinAction, signInNextAction } from '../actions';

type Props = {
  readonly token: string;
  readonly email: string;
  /** Null for somebody who has a second factor already. */
  readonly offer: FactorOffer | null;
};

const START: JoinState = { errors: {}, recoveryCodes: null };

/** A password, and a second factor in the same go for who wants one. */
export function JoinForm({ token, email, offer: fresh }: Props) {
  const [state, join, busy] = useActionState<JoinState, FormData>(joinAction, START);
  const [offer] = useState(fresh);
  const [wanted, setWanted] = useState(false);
  if (state.recoveryCodes) {
    return (
      <div className="panel form">
        <p>Your password and your second factor are set.</p>
        <RecoveryCodes codes={state.recoveryCodes} />
        <form action={signInNextAction}>
          <input type="hidden" name="email" value={email} />
          <button type="submit" className="button main">
            I have kept them. Sign in
          </button>
        </form>
      </div>
    );
  }
  return (
    <form className="panel form" method="post" onSubmit={withoutReset(join)}>
      <input type="hidden" name="token" value={token} />
      <Field id="email" label="E-mail">
        {(wiring) => <input {...wiring} type="email" autoComplete="username" value={email} readOnly />}
      </Field>
      <NewPassword refusal={state.errors.password} />
      {offer && (
        <label className="choice">
          <input type="checkbox" name="wanted" value="yes" checked={wanted} onChange={(event) => setWanted(event.target.checked)} />
          Set up a second factor as well
        </label>
      )}
      {offer && wanted && (
        <>
          <FactorPicture offer={offer} />
          <Field id="code" label="Code it shows now" refusal={state.errors.code}>
            {(wiring) => <input {...wiring} autoComplete="one-time-code" inputMode="numeric" required />}
          </Field>
        </>
      )}
      <p className="refusal" role="alert">
        {state.errors.form}
      </p>
      <button type="submit" className="button main" aria-disabled={busy}>
        Set the password
      </button>
    </form>
  );
}
