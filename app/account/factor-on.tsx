'use client';

import { useActionState } from 'react';
import { RecoveryCodes } from '@/app/_auth/recovery-code-list';
import { type AccountState, renewCodesAction, turnOffFactorAction } from './actions';
import { CurrentPassword } from './current-password';

const START: AccountState = { errors: {} };

/** A second factor that is on: since when, how many recovery codes are left, new ones, and turning it off. */
export function FactorOn({ since, codesLeft }: { readonly since: string; readonly codesLeft: number }) {
  const [renewed, renew, isRenewing] = useActionState<AccountState, FormData>(renewCodesAction, START);
  const [ended, turnOff, isEnding] = useActionState<AccountState, FormData>(turnOffFactorAction, START);
  return (
    <section className="panel" aria-labelledby="factor-head">
      <h2 id="factor-head">Second factor</h2>
      <p>
        On since {since}. {codesLeft} of 10 recovery codes are left.
      </p>
      {renewed.recoveryCodes && <RecoveryCodes codes={renewed.recoveryCodes} />}
      <div className="two-columns">
        <form className="form" action={renew}>
          <CurrentPassword id="current-for-codes" refusal={renewed.errors.current} />
          <div className="actions">
            <button type="submit" className="button" aria-disabled={isRenewing}>
              Make ten new recovery codes
            </button>
          </div>
        </form>
        <form className="form" action={turnOff}>
          <CurrentPassword id="current-for-off" refusal={ended.errors.current} />
          <div className="actions">
            <button type="submit" className="button" aria-disabled={isEnding}>
              Turn the second factor off
            </button>
          </div>
        </form>
      </div>
    </section>
  );
}
