'use server';

import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { getAuth } from './auth';
import { requireTherapist } from './therapist';

/** Ends the session in the database and in the browser. */
export async function signOut(): Promise<void> {
  await requireTherapist();
  const auth = await getAuth();
  await auth.api.signOut({ headers: await headers() });
  redirect('/sign-in');
}
