'use client';

import { type FormEvent, useRef, useState } from 'react';

const WRONG = 'This e-mail and password do not match. Check both and try again.';
const AWAY = 'The server did not answer. Nothing was lost. Try again in a moment.';

/** E-mail and password, posted to the address where tries are counted. */
export function SignInForm({ next }: { next: string }) {
  const [refusal, setRefusal] = useState('');
  const [busy, setBusy] = useState(false);
  const password = useRef<HTMLInputElement>(null);

  async function signIn(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const typed = new FormData(event.currentTarget);
    setBusy(true);
    setRefusal('');
    const sentence = await refusalOf(String(typed.get('email')), String(typed.get('password')));
    if (sentence === '') return window.location.assign(next);
    setBusy(false);
    setRefusal(sentence);
    password.current?.select();
    password.current?.focus();
  }

  return (
    <form className="panel form" onSubmit={signIn} method="post">
      <div className="field">
        <label htmlFor="email">E-mail</label>
        <input id="email" name="email" type="email" autoComplete="username" required />
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
          aria-invalid={refusal !== ''}
          aria-describedby="refusal"
        />
      </div>
      <p id="refusal" className="refusal" role="alert">
        {refusal}
      </p>
      <button type="submit" className="button main" aria-disabled={busy}>
        {busy ? 'Signing in…' : 'Sign in'}
      </button>
    </form>
  );
}

async function refusalOf(email: string, password: string): Promise<string> {
  try {
    const body = JSON.stringify({ email, password });
    const answer = await fetch('/api/auth/sign-in/email', { method: 'POST', headers: { 'content-type': 'application/json' }, body });
    if (answer.ok) return '';
    if (answer.status === 429) return tooMany(Number(answer.headers.get('x-retry-after')));
    return answer.status < 500 ? WRONG : AWAY;
  } catch {
    return AWAY;
  }
}

function tooMany(seconds: number): string {
  if (seconds > 0 && seconds < 120) return `Too many tries. Wait ${seconds} seconds, then try again.`;
  return 'Too many tries with this e-mail. Wait 15 minutes, or ask the clinic lead.';
}
