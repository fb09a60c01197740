'use server';

import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { getAuth } from './auth';
import { requireActing } from './therapist';

/** Ends the session in the database and in the browser. */
export async function signOut(): Promise<void> {
  await requireActing();
  const auth = await getAuth();
  await auth.api.signOut({ headers: await headers() });
  redirect('/sign-in');
}
