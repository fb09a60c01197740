import { and, eq, gt, lt } from 'drizzle-orm';
import { getDatabase } from './client';
import { signInFailure } from './schema';

/** Tries of one account within the window before it has to wait. Clinic default: a person mistypes twice or three times. */
export const MOST_TRIES = 8;

/** The window in which tries are counted, minutes. Clinic default. */
export const TRY_WINDOW_MINUTES = 15;

/**
 * Counts a try to sign in before its password is looked at; false when this account has had too many.
 *
 * Counted per account whatever the address, because an address can be made up. A refused try is not counted,
 * so that nobody can be kept out for longer than the window after the last real try.
 */
export async function countTry(emailHash: string, at = new Date()): Promise<boolean> {
  const database = await getDatabase();
  const since = new Date(at.getTime() - TRY_WINDOW_MINUTES * 60_000);
  await database.delete(signInFailure).where(lt(signInFailure.at, since));
  const row = { id: crypto.randomUUID(), emailHash, at };
  await database.insert(signInFailure).values(row);
  const tries = await database.$count(signInFailure, and(eq(signInFailure.emailHash, emailHash), gt(signInFailure.at, since)));
  if (tries <= MOST_TRIES) return true;
  await database.delete(signInFailure).where(eq(signInFailure.id, row.id));
  return false;
}

/** Forgets an account's tries, once its password was right. */
export async function forgetTries(emailHash: string): Promise<void> {
  const database = await getDatabase();
  await database.delete(signInFailure).where(eq(signInFailure.emailHash, emailHash));
}
