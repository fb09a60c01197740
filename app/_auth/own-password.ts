import 'server-only';
import { verifyPassword } from 'better-auth/crypto';
import { headers } from 'next/headers';
import { ownProof } from '@/db/people/own-account';
import type { Therapist } from '@/db/therapist';
import { beginTry } from './limits';

/** Why this is not taken for the person's own password; undefined when it is theirs. Counted as a try to sign in is. */
export async function ownPasswordRefusal(therapist: Therapist, typed: string): Promise<string | undefined> {
  const { email, passwordHash } = await ownProof(therapist);
  const attempt = await beginTry(await headers(), email);
  if (attempt.kind === 'too-many') return `Too many wrong tries. Wait ${attempt.waitMinutes} min, then try again.`;
  if (!(await verifyPassword({ hash: passwordHash, password: typed }))) return 'This is not your password.';
  await attempt.provedWho();
  return undefined;
}
