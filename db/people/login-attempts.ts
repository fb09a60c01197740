import { and, count, eq, gt, inArray, lt, max, ne } from 'drizzle-orm';
import { getDatabase } from '../client';
import { countedTry } from '../schema/schema';
import { whenFree } from '../sql/storage-trouble';

/**
 * How many wrong tries within `hours` are free, and how long the next one then waits: `firstMinutes`, twice as long after each further one,
 * at most `longestMinutes`.
 */
export type Limit = {
  readonly free: number;
  readonly hours: number;
  readonly firstMinutes: number;
  readonly longestMinutes: number;
};

const GROWING = { firstMinutes: 1, longestMinutes: 15 } as const;

/** Tries of one account from one caller: a person mistypes twice or three times. Clinic default. */
export const OF_ACCOUNT_AND_CALLER: Limit = { free: 8, hours: 24, ...GROWING };

/** Tries of one account in a browser that signed in to it before; nobody else can use them up. Clinic default. */
export const OF_KNOWN_BROWSER: Limit = { free: 8, hours: 24, ...GROWING };

/** Tries of one caller over all accounts and links: a whole clinic behind one address signs in within it. Clinic default. */
export const OF_CALLER: Limit = { free: 30, hours: 1, ...GROWING };

/**
 * Tries of one account from all callers that never signed in to it. Beyond it they wait up to an hour between two.
 *
 * Source: NIST SP 800-63B, section on rate limiting: at most 100 failed tries in a row, a wait that grows to an hour, known browsers apart
 * (from memory).
 */
export const OF_ACCOUNT_FROM_STRANGERS: Limit = { free: 50, hours: 24, firstMinutes: 1, longestMinutes: 60 };

const KEPT_MS = 24 * 3_600_000;
const MINUTE = 60_000;

/** A try that was let through, by the id it can be forgotten with; or how long the next one has to wait. */
export type Counted = { readonly kind: 'counted'; readonly id: string } | { readonly kind: 'must-wait'; readonly waitMs: number };

/**
 * Counts a try before anything is looked at.
 *
 * The row is written first and counted after, so that tries sent at the same moment all count. A refused try is not kept: nobody is held
 * back for longer than the wait after their last real try. `whose` is a hash, because a wrong try may hold a real secret.
 */
export async function countTry(whose: string, limit: Limit, at = new Date()): Promise<Counted> {
  const database = await getDatabase();
  await whenFree(async () => database.delete(countedTry).where(lt(countedTry.at, new Date(at.getTime() - KEPT_MS))));
  const row = { id: crypto.randomUUID(), whose, at };
  await whenFree(async () => database.insert(countedTry).values(row));
  const since = new Date(at.getTime() - limit.hours * 60 * MINUTE);
  const [before = { tries: 0, last: null }] = await database
    .select({ tries: count(), last: max(countedTry.at) })
    .from(countedTry)
    .where(and(eq(countedTry.whose, whose), gt(countedTry.at, since), ne(countedTry.id, row.id)));
  const waitMs = before.last ? before.last.getTime() + waitAfter(before.tries, limit) - at.getTime() : 0;
  if (waitMs <= 0) return { kind: 'counted', id: row.id };
  await forgetTries([row.id]);
  return { kind: 'must-wait', waitMs };
}

/** Milliseconds from one try to the next once so many were made. */
export function waitAfter(tries: number, { free, firstMinutes, longestMinutes }: Limit): number {
  return tries < free ? 0 : Math.min(firstMinutes * 2 ** (tries - free), longestMinutes) * MINUTE;
}

/** Forgets single tries: they were right. */
export async function forgetTries(tryIds: readonly string[]): Promise<void> {
  const database = await getDatabase();
  await whenFree(async () => database.delete(countedTry).where(inArray(countedTry.id, [...tryIds])));
}

/** Forgets every try of one budget, once somebody has proved to be its person. */
export async function forgetTriesOf(whose: string): Promise<void> {
  const database = await getDatabase();
  await whenFree(async () => database.delete(countedTry).where(eq(countedTry.whose, whose)));
}
