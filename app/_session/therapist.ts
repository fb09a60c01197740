import 'server-only';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { cache } from 'react';
import { type Role, type Therapist, therapistWithId } from '@/db/therapist';
import { getAuth } from './auth';

/** The person signed in, or undefined. Asked once for each request, however often it is called. */
export const currentTherapist = cache(async (): Promise<Therapist | undefined> => {
  const sent = await headers();
  const auth = await getAuth();
  const session = await auth.api.getSession({ headers: sent });
  return session ? therapistWithId(session.user.id) : undefined;
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
