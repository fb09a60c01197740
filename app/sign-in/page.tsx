import type { Metadata } from 'next';
import { redirect } from 'next/navigation';
import { justJoined } from '@/app/_auth/just-joined';
import { returnPath } from '@/app/_auth/return-path';
import { currentTherapist } from '@/app/_auth/therapist';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { SignInForm } from './sign-in-form';

export const metadata: Metadata = { title: 'Sign in' };

/** The only screen without a guard. People are added by the clinic, so there is nothing to join here. */
export default async function SignInPage({ searchParams }: { searchParams: Promise<{ to?: string; joined?: string }> }) {
  const { to, joined } = await searchParams;
  const next = returnPath(to);
  if (await currentTherapist()) redirect(next);
  return (
    <main id="main" className="narrow">
      <h1>Sign in</h1>
      {joined && <p role="status">Your password is set. Sign in with it.</p>}
      <p className="secondary">For the therapists of this clinic. Ask the clinic lead if you have no sign-in yet.</p>
      <SignInForm next={next} email={await justJoined()} />
      <ProtocolLine what="This program" />
    </main>
  );
}
