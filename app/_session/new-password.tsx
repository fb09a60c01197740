'use client';

import { useState } from 'react';
import { Field } from '@/app/_shell/field';
import { LONGEST, SHORTEST_ALONE, SHORTEST_WITH_FACTOR } from './password-lengths';

type Props = { readonly withFactor: boolean; readonly refusal: string | undefined };

/** The box for a password to choose: typed or pasted, shown on request. What was typed stays when the form comes back. */
export function NewPassword({ withFactor, refusal }: Props) {
  const [typed, setTyped] = useState('');
  const [isShown, setShown] = useState(false);
  const shortest = withFactor ? SHORTEST_WITH_FACTOR : SHORTEST_ALONE;
  return (
    <>
      <Field
        id="password"
        label="New password"
        hint={`${shortest} characters or more, spaces too. Four or five words that do not belong together are easy to keep.`}
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
