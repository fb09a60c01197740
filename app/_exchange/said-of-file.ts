import 'server-only';
import { cookies } from 'next/headers';

/** What the server says of a file on the page that follows, kept for a minute in a cookie of that path and nowhere else. */
const COOKIE = 'said-of-file';
const MOST_CHARACTERS = 1500;

/** The header that sets it. */
export function saidCookie(sentences: readonly string[]): Record<string, string> {
  const text = encodeURIComponent(sentences.join('\n').slice(0, MOST_CHARACTERS));
  return { 'Set-Cookie': `${COOKIE}=${text}; Path=/clinic/exchange; Max-Age=60; HttpOnly; SameSite=Strict` };
}

/** The sentences, where there are any. */
export async function saidOfFile(): Promise<readonly string[]> {
  const text = (await cookies()).get(COOKIE)?.value ?? '';
  return decodeURIComponent(text)
    .split('\n')
    .filter((sentence) => sentence !== '');
}
