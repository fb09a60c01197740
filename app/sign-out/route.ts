import { headers } from 'next/headers';
import { getAuth } from '@/app/_auth/auth';
import { requireActing } from '@/app/_auth/therapist';
import { whenFree } from '@/db/sql/storage-trouble';

/**
 * Ends the session in the database and in the browser, and leaves the page altogether: a plain form is sent here, so that the browser
 * throws the window's scripts and data away with it, and pages kept for Back as well (`Clear-Site-Data`). What waits sealed on the device
 * stays: only the person it belongs to can open it.
 */
export async function POST(): Promise<Response> {
  await requireActing();
  const auth = await getAuth();
  const sent = await headers();
  const { headers: cookies } = await whenFree(() => auth.api.signOut({ headers: sent, returnHeaders: true }));
  const answer = new Headers({ Location: '/sign-in', 'Clear-Site-Data': '"cache"', 'Cache-Control': 'no-store' });
  for (const cookie of cookies.getSetCookie()) answer.append('Set-Cookie', cookie);
  return new Response(null, { status: 303, headers: answer });
}
