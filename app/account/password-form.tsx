'use client';

import { useActionState } from 'react';
import { withoutReset } from '@/app/_auth/without-reset';
import { NewPassword } from '@/app/_form/new-password';
import { type AccountState, changePasswordAction } from './actions';
import { CurrentPassword } from './current-password';

/** Another password, for who knows the one they have. */
export function PasswordForm() {
  const [state, change, busy] = useActionState<AccountState, FormData>(changePasswordAction, { errors: {} });
  return (
    <section className="panel" aria-labelledby="password-head">
      <h2 id="password-head">Password</h2>
      <p role="status">{state.done}</p>
      <form className="form" method="post" onSubmit={withoutReset(change)} key={state.done}>
        <CurrentPassword id="current" refusal={state.errors.current} />
        <NewPassword refusal={state.errors.password} />
        <div className="actions">
          <button type="submit" className="button" aria-disabled={busy}>
            Change the password
          </button>
        </div>
      </form>
    </section>
  );
}
