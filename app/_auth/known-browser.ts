import 'server-only';
import { createHash, createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import { authSecret } from './auth-secret';

/** Days a browser stays known after its last good sign-in. Clinic default: longer than a leave. */
const KNOWN_DAYS = 180;

const DAY_MS = 86_400_000;

/** The cookie that makes a browser known to one account; several people may share a browser. */
export type KnownCookie = { readonly name: string; readonly value: string; readonly maxAge: number };

/** A new cookie for the browser in which somebody has just signed in. It opens nothing: it only says whose tries are counted together. */
export function knownCookie(email: string, at = Date.now()): KnownCookie {
  const [id, day] = [randomBytes(16).toString('base64url'), Math.floor(at / DAY_MS)];
  return { name: nameFor(email), value: `${id}.${day}.${signature(email, id, day)}`, maxAge: KNOWN_DAYS * 86_400 };
}

/** The id of the browser a request comes from, when this program signed it for this account not too long ago. */
export function knownBrowser(headers: Headers, email: string, at = Date.now()): string | undefined {
  const name = nameFor(email);
  const sent = headers
    .get('cookie')
    ?.split(/;\s*/)
    .find((one) => one.startsWith(`${name}=`));
  const [id = '', days = '', given = ''] = sent?.slice(name.length + 1).split('.') ?? [];
  if (!/^[\w-]{22}$/.test(id) || !/^\d{1,6}$/.test(days)) return undefined;
  const [right, got] = [Buffer.from(signature(email, id, Number(days))), Buffer.from(given)];
  if (right.length !== got.length || !timingSafeEqual(right, got)) return undefined;
  return at / DAY_MS - Number(days) <= KNOWN_DAYS ? id : undefined;
}

function nameFor(email: string): string {
  const prefix = process.env.APP_URL?.startsWith('https:') ? '__Secure-' : '';
  return `${prefix}rungwise-known-${createHash('sha256').update(plain(email)).digest('hex').slice(0, 12)}`;
}

function signature(email: string, id: string, day: number): string {
  return createHmac('sha256', authSecret())
    .update(`known browser\n${plain(email)}\n${id}\n${day}`)
    .digest('base64url');
}

function plain(email: string): string {
  return email.trim().toLowerCase();
}
