import 'server-only';
import { headers } from 'next/headers';
import { forbidden, redirect } from 'next/navigation';
import { after } from 'next/server';
import { cache } from 'react';
import { endIdleSession, IDLE_SECONDS, lastUseOf, touchSession } from '@/db/people/sessions';
import { type Role, type Therapist, therapistWithId } from '@/db/therapist';
import { getAuth } from './auth';
import { isSameOrigin } from './same-origin';

/** The session of a request, and who it belongs to. */
export type OpenSession = {
  readonly id: string;
  readonly therapist: Therapist;
  readonly usedAt: Date;
  /** The end of the shift. */
  readonly expiresAt: Date;
};

/** The session of this request, while it lives; looking at it is no use of it. Asked once for each request, however often it is called. */
export const openSession = cache(async (): Promise<OpenSession | undefined> => {
  const sent = await headers();
  const auth = await getAuth();
  const found = await auth.api.getSession({ headers: sent });
  if (!found) return undefined;
  const { id, userId, createdAt, expiresAt, lastUsedAt } = found.session;
  const usedAt = lastUseOf(id, lastUsedAt ?? createdAt);
  if (Date.now() - usedAt.getTime() > IDLE_SECONDS * 1000) {
    after(() => endIdleSession(id));
    return undefined;
  }
  const therapist = await therapistWithId(userId, createdAt);
  return therapist && { id, therapist, usedAt, expiresAt };
});

/** The person signed in, or undefined. Their session is in use from now on. */
export const currentTherapist = cache(async (): Promise<Therapist | undefined> => {
  const session = await openSession();
  if (session) after(() => touchSession(session.id));
  return session?.therapist;
});

/** The person signed in; anyone else is sent to the sign-in page, and after it to the place they came `from`. */
export async function requireTherapist(from?: string): Promise<Therapist> {
  const therapist = await currentTherapist();
  return therapist ?? redirect(from ? `/sign-in?to=${encodeURIComponent(from)}` : '/sign-in');
}

/** The person signed in, if their role is one of these; anyone else is told that they may not. */
export async function requireRole(...roles: readonly Role[]): Promise<Therapist> {
  const therapist = await requireTherapist();
  return roles.includes(therapist.role) ? therapist : redirect('/not-allowed');
}

/** Refuses a request that does not come from a page of this program. For what is done before anybody is signed in; else `requireActing`. */
export async function requireOwnPage(): Promise<void> {
  if (!isSameOrigin(await headers())) forbidden();
}

/**
 * The guard of everything that changes something: the person signed in, of one of these roles (any, when none is named), who asks from a
 * page of this program. A request from anywhere else is refused before anybody looks who sends it.
 */
export async function requireActing(...roles: readonly Role[]): Promise<Therapist> {
  await requireOwnPage();
  return roles.length > 0 ? requireRole(...roles) : requireTherapist();
}
