import { useState } from 'react';
import { Field } from '@/app/_form/field';
import { keepList } from './care';
import { deviceLock, forget, keepLock } from './kept';
import { LONGEST_CODE, newLock, SHORTEST_CODE } from './lock';
import { readyWorker } from './ready-worker';

type Props = {
  readonly build: string;
  /** Whoever is signed in and measures, by a name that tells nothing. */
  readonly person: string | null;
  /** Told how many sheets are kept beside the list. */
  readonly onMade: (sheets: number) => void;
};

/** Chooses the code of this device, and keeps the list of today and the sheets that go with it. Takes a connection and somebody signed in. */
export function ChooseCode({ build, person, onMade }: Props) {
  const [refused, setRefused] = useState<Readonly<Record<string, string>>>({});
  const [busy, setBusy] = useState(false);
  const make = async (form: FormData) => {
    const code = String(form.get('code') ?? '').trim();
    if (code.length < SHORTEST_CODE || code.length > LONGEST_CODE)
      return setRefused({ code: `Type ${SHORTEST_CODE} to ${LONGEST_CODE} characters: three words, for instance.` });
    if (String(form.get('again') ?? '').trim() !== code) return setRefused({ again: 'The two are not the same.' });
    if (person === null) return setRefused({ form: 'Sign in as somebody who measures, then choose a code.' });
    setRefused({});
    setBusy(true);
    await keepLock({ ...(await newLock(code)), person, build, wrongCodes: 0 });
    const kept = await prepare(build).catch((error: Error) => error.message);
    if (typeof kept === 'number') return onMade(kept);
    await forget();
    setBusy(false);
    setRefused({ form: `This device could not be made ready: ${kept}` });
  };
  return (
    <form
      className="panel form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (!busy) void make(new FormData(event.currentTarget));
      }}
    >
      <h2>Keep today’s sheets on this device</h2>
      <p>
        The list of today, the sheets of those due today and of every patient you open are kept sealed. Only the code opens them, only
        today; they go when you sign out. Use a device of the clinic.
      </p>
      <p className="refusal" role="alert">
        {refused.form ?? ''} {refused.form?.startsWith('Sign in') && <a href="/sign-in?to=/offline">Sign in</a>}
      </p>
      <div className="two-columns">
        <Field id="code" label="Code" hint="Ten characters or more; not your password." refusal={refused.code}>
          {(wiring) => <input {...wiring} type="password" autoComplete="off" maxLength={LONGEST_CODE} />}
        </Field>
        <Field id="again" label="The same again" refusal={refused.again}>
          {(wiring) => <input {...wiring} type="password" autoComplete="off" maxLength={LONGEST_CODE} />}
        </Field>
      </div>
      <div className="actions">
        <button className="button main" type="submit" aria-disabled={busy}>
          {busy ? 'Making this device ready…' : 'Keep them'}
        </button>
      </div>
    </form>
  );
}

/** Everything that the desk needs without a connection: list and sheets, the program's own files, and what answers in the server's place. How many sheets, or why not. */
async function prepare(build: string): Promise<number | string> {
  const lock = await deviceLock();
  const sheets = lock && (await keepList(lock));
  if (sheets === undefined) return 'the list of today did not come.';
  return (await readyWorker(build)) ?? sheets;
}
