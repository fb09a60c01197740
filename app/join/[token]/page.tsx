import type { Metadata } from 'next';
import { headers } from 'next/headers';
import { beginTry } from '@/app/_auth/limits';
import { offerFactor } from '@/app/_auth/second-factor';
import { holderOf } from '@/db/people/one-time-links';
import { JoinForm } from './join-form';

export const metadata: Metadata = { title: 'Choose a password', referrer: 'no-referrer' };

/** Where a one-time link leads: its holder chooses a password. Looking at it does not use it up; a link that opens nothing says no more. */
export default async function JoinPage({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params;
  const attempt = await beginTry(await headers(), `link ${token}`);
  const holder = attempt.kind === 'begun' ? await holderOf(token) : undefined;
  if (attempt.kind === 'too-many' || !holder) {
    const wait = attempt.kind === 'too-many';
    return (
      <main id="main" className="narrow">
        <h1>{wait ? 'Too many tries from here' : 'This link opens nothing'}</h1>
        <p>
          {wait
            ? `Wait ${attempt.waitMinutes === 1 ? 'a minute' : `${attempt.waitMinutes} minutes`}, then open the link again.`
            : 'It was used, has ended, or a newer one took its place.'}
        </p>
        {!wait && <p>Ask the clinic lead for a new link.</p>}
      </main>
    );
  }
  await attempt.wasRight();
  const offer = holder.hasSecondFactor ? null : await offerFactor(holder, holder.clinicName);
  return (
    <main id="main" className="narrow">
      <h1>{holder.hasPassword ? 'Choose a new password' : `Join ${holder.clinicName}`}</h1>
      <p>
        {holder.name}, you sign in with <b>{holder.email}</b> and the password you choose here.
        {holder.hasPassword && ' Wherever you are signed in now, you will have to sign in again.'}
      </p>
      <JoinForm token={token} email={holder.email} offer={offer} />
    </main>
  );
}
