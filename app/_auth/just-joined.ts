import 'server-only';
import { cookies } from 'next/headers';

/** Who has just set a password, kept for ten minutes in a cookie of the sign-in page and nowhere else: an address would be in logs. */
const SECONDS = 600;
const LONGEST = 320;

/** Its name; where the clinic is reached by https no page reached otherwise can set it. */
function cookie(): { readonly name: string; readonly secure: boolean } {
  const secure = process.env.APP_URL?.startsWith('https:') ?? false;
  return { name: secure ? '__Secure-just-joined' : 'just-joined', secure };
}

/** Keeps the e-mail for the page on which it is asked for next. */
export async function keepJoined(email: string): Promise<void> {
  const { name, secure } = cookie();
  (await cookies()).set(name, email, { path: '/sign-in', maxAge: SECONDS, httpOnly: true, sameSite: 'strict', secure });
}

/** The e-mail of whoever has just joined in this browser; empty otherwise. */
export async function justJoined(): Promise<string> {
  return ((await cookies()).get(cookie().name)?.value ?? '').slice(0, LONGEST);
}
