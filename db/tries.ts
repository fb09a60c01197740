import { and, eq, gt, inArray, lt } from 'drizzle-orm';
import { getDatabase } from './client';
import { countedTry } from './schema';

/** How many tries are let through within how many minutes. */
export type Limit = { readonly most: number; readonly minutes: number };

/** Tries of one account: a person mistypes twice or three times. Clinic default. */
export const OF_ONE_ACCOUNT: Limit = { most: 8, minutes: 15 };

/** Wrong tries from one address, over all accounts and links: a whole clinic behind one address signs in within it. Clinic default. */
export const OF_ONE_ADDRESS: Limit = { most: 30, minutes: 1 };

const KEPT_MINUTES = 15;

/**
 * Counts a try before anything is looked at; undefined when there were too many, else its id.
 *
 * The row is written first and counted after, so that tries sent at the same moment all count. A refused try is not kept: nobody can be
 * held back for longer than the window after their last real try. `whose` is a hash, because a wrong try may hold a real secret.
 */
export async function countTry(whose: string, limit: Limit, at = new Date()): Promise<string | undefined> {
  const database = await getDatabase();
  const before = (minutes: number) => new Date(at.getTime() - minutes * 60_000);
  await database.delete(countedTry).where(lt(countedTry.at, before(KEPT_MINUTES)));
  const row = { id: crypto.randomUUID(), whose, at };
  await database.insert(countedTry).values(row);
  const tries = await database.$count(countedTry, and(eq(countedTry.whose, whose), gt(countedTry.at, before(limit.minutes))));
  if (tries <= limit.most) return row.id;
  await forgetTries([row.id]);
  return undefined;
}

/** Forgets single tries: they were right. */
export async function forgetTries(tryIds: readonly string[]): Promise<void> {
  const database = await getDatabase();
  await database.delete(countedTry).where(inArray(countedTry.id, [...tryIds]));
}

/** Forgets every try of one account, once somebody has proved to be its person. */
export async function forgetTriesOf(whose: string): Promise<void> {
  const database = await getDatabase();
  await database.delete(countedTry).where(eq(countedTry.whose, whose));
}
