'use client';

import { useState } from 'react';
import { LONGEST, SHORTEST } from '@/app/_auth/password-lengths';
import { Field } from '@/app/_form/field';

/** The box for a password to choose: typed or pasted, shown on request. What was typed stays when the form comes back. */
export function NewPassword({ refusal }: { readonly refusal: string | undefined }) {
  const [typed, setTyped] = useState('');
  const [isShown, setShown] = useState(false);
  return (
    <>
      <Field
        id="password"
        label="New password"
        hint={`${SHORTEST} characters or more, spaces too. Four or five words that do not belong together are easy to keep.`}
        refusal={refusal}
      >
        {(wiring) => (
          <input
            {...wiring}
            type={isShown ? 'text' : 'password'}
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
            autoComplete="new-password"
            spellCheck={false}
            maxLength={LONGEST}
            required
          />
        )}
      </Field>
      <label className="choice">
        <input type="checkbox" checked={isShown} onChange={(event) => setShown(event.target.checked)} />
        Show what I type
      </label>
    </>
  );
}
