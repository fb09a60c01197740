import 'server-only';
import { cookies } from 'next/headers';

/** Who has just set a password, kept for ten minutes in a cookie of the sign-in page and nowhere else: an address would be in logs. */
const COOKIE = 'just-joined';
const SECONDS = 600;
const LONGEST = 320;

/** Keeps the e-mail for the page on which it is asked for next. */
export async function keepJoined(email: string): Promise<void> {
  const secure = process.env.APP_URL?.startsWith('https:') ?? false;
  (await cookies()).set(COOKIE, email, { path: '/sign-in', maxAge: SECONDS, httpOnly: true, sameSite: 'strict', secure });
}

/** The e-mail of whoever has just joined in this browser; empty otherwise. */
export async function justJoined(): Promise<string> {
  return ((await cookies()).get(COOKIE)?.value ?? '').slice(0, LONGEST);
}
