'use client';

import { type FormEvent, useRef, useState } from 'react';
import { type Asked, askToSignIn } from './ask-to-sign-in';

/** E-mail and password; and, where one is set up, the code of the second factor. What was typed stays until it is all right; `email` is filled in for whoever has just joined. */
export function SignInForm({ next, email }: { next: string; email: string }) {
  const [asked, setAsked] = useState<Asked>({ refusal: '', needsCode: false });
  const [busy, setBusy] = useState(false);
  const password = useRef<HTMLInputElement>(null);
  const code = useRef<HTMLInputElement>(null);

  async function signIn(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const typed = new FormData(event.currentTarget);
    setBusy(true);
    setAsked({ ...asked, refusal: '' });
    const answer = await askToSignIn(String(typed.get('email')), String(typed.get('password')), String(typed.get('code') ?? ''));
    if (answer === 'in') return window.location.assign(next);
    setBusy(false);
    setAsked(answer);
    const box = answer.needsCode ? code : password;
    requestAnimationFrame(() => {
      box.current?.select();
      box.current?.focus();
    });
  }

  const isRefused = asked.refusal !== '';
  return (
    <form className="panel form" onSubmit={signIn} method="post">
      <div className="field">
        <label htmlFor="email">E-mail</label>
        <input id="email" name="email" type="email" autoComplete="username" defaultValue={email} required readOnly={asked.needsCode} />
      </div>
      <div className="field">
        <label htmlFor="password">Password</label>
        <input
          id="password"
          name="password"
          type="password"
          ref={password}
          autoComplete="current-password"
          required
          readOnly={asked.needsCode}
          aria-invalid={isRefused && !asked.needsCode}
          aria-describedby="refusal"
        />
      </div>
      {asked.needsCode && (
        <div className="field">
          <label htmlFor="code">Code of your second factor</label>
          <p id="code-hint" className="secondary small">
            The six digits that your authenticator shows now, or one of your recovery codes.
          </p>
          <input
            id="code"
            name="code"
            ref={code}
            autoComplete="one-time-code"
            autoCapitalize="none"
            spellCheck={false}
            required
            aria-invalid={isRefused}
            aria-describedby="code-hint refusal"
          />
        </div>
      )}
      <p id="refusal" className="refusal" role="alert">
        {asked.refusal}
      </p>
      <button type="submit" className="button main" aria-disabled={busy}>
        {busy ? 'Signing in…' : 'Sign in'}
      </button>
    </form>
  );
}
