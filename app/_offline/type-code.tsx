import { useState } from 'react';
import { Field } from '@/app/_form/field';
import { LONGEST_CODE } from './lock';

type Props = {
  readonly refused: string;
  /** What stands above: what was kept, or that there is no connection. */
  readonly said: string;
  readonly onCode: (code: string) => Promise<void>;
  readonly onForget: () => void;
};

/** The code of this device, typed to open what it keeps. */
export function TypeCode({ refused, said, onCode, onForget }: Props) {
  const [busy, setBusy] = useState(false);
  return (
    <form
      className="panel form"
      noValidate
      onSubmit={async (event) => {
        event.preventDefault();
        if (busy) return;
        setBusy(true);
        await onCode(String(new FormData(event.currentTarget).get('code') ?? ''));
        setBusy(false);
      }}
    >
      <h2>Open what this device keeps</h2>
      <p role="status">{said}</p>
      <Field id="code" label="Code of this device" refusal={refused}>
        {(wiring) => <input {...wiring} type="password" autoComplete="off" maxLength={LONGEST_CODE} />}
      </Field>
      <div className="actions">
        <button className="button main" type="submit" aria-disabled={busy}>
          {busy ? 'Opening…' : 'Open'}
        </button>
        <button className="button" type="button" onClick={onForget}>
          Forget what is kept here
        </button>
      </div>
      <p className="secondary">Forgotten are copies alone: the record is on the server, and a finished visit that waits stays.</p>
    </form>
  );
}
