import { drizzle } from 'drizzle-orm/node-postgres';
import type { Pool } from 'pg';
import { engine } from './columns';
import type { Database } from './database';
import { whenFree } from './storage-trouble';
import { CommitUnanswered, isGone, tryAgain } from './try-again';

/** A query not run yet; it gives the rows it touched. */
export type Query = PromiseLike<readonly unknown[]>;

/**
 * Queries of a write that do not wait for each other’s rows: on PostgreSQL they are sent one behind the other without a pause, so that they cost one
 * way to the server and back; the server still runs them in their order. Its rows are how each of them ended.
 */
export class Together implements Query {
  constructor(private readonly queries: readonly Query[]) {}

  // biome-ignore lint/suspicious/noThenProperty: it is awaited as one query is.
  then<A = readonly Ended[], B = never>(
    done?: ((ended: readonly Ended[]) => A | PromiseLike<A>) | null,
    failed?: ((error: unknown) => B | PromiseLike<B>) | null,
  ): Promise<A | B> {
    return Promise.allSettled(this.queries).then(done, failed);
  }
}

/** How one of several queries ended. */
export type Ended = PromiseSettledResult<readonly unknown[]>;

/** A write told as its queries, one after the other: each is handed out, and its rows come back. */
export type Steps<T> = Generator<Query, T, readonly unknown[]>;

/** One query of a write, with its rows typed: `const [head] = yield* rowsOf(tx.select()…)`. */
export function* rowsOf<T>(query: PromiseLike<readonly T[]>): Steps<readonly T[]> {
  return (yield query) as readonly T[];
}

/**
 * Runs the steps of a write in one transaction: all of them or none.
 *
 * SQLite runs them in one immediate transaction without a pause, once no other process holds its lock (`sql/storage-trouble.ts`); PostgreSQL awaits each in one transaction, and a transaction that has
 * certainly left nothing behind is run again (`try-again.ts`).
 */
export async function runTransaction<T>(database: Database, stepsOn: (tx: Database) => Steps<T>): Promise<T> {
  if (engine === 'sqlite') {
    return whenFree(async () => (database as unknown as Immediate).transaction((tx) => runSteps(stepsOn(tx)), { behavior: 'immediate' }));
  }
  return whenFree(() => tryAgain(() => onServer((database as unknown as { $client: Pool }).$client, stepsOn)));
}

type Immediate = { transaction: <T>(body: (tx: Database) => T, options: { behavior: 'immediate' }) => T };

/**
 * One transaction on a connection of its own, which always goes back to the pool, or is thrown away when it was lost.
 *
 * drizzle's own transaction keeps a connection that is lost at `begin`: ten of them would stop the program for good.
 */
async function onServer<T>(pool: Pool, stepsOn: (tx: Database) => Steps<T>): Promise<T> {
  const connection = await pool.connect();
  let lost = false;
  try {
    await connection.query('begin');
    const ended = await finish(stepsOn(drizzle(connection, { casing: 'snake_case' }) as unknown as Database));
    await connection.query('commit').catch((error: unknown) => {
      throw isGone(error) ? new CommitUnanswered(error) : error;
    });
    return ended;
  } catch (error) {
    await connection.query('rollback').catch(() => {
      lost = true;
    });
    throw error;
  } finally {
    connection.release(lost);
  }
}

/** Runs steps to their end inside a transaction of SQLite, which does not wait. */
export function runSteps<T>(steps: Steps<T>): T {
  let step = steps.next();
  while (!step.done) step = steps.next((step.value as unknown as { all: () => readonly unknown[] }).all());
  return step.value;
}

/** Runs steps to their end inside a transaction of PostgreSQL. */
export async function finish<T>(steps: Steps<T>): Promise<T> {
  let step = steps.next();
  while (!step.done) step = steps.next(await step.value);
  return step.value;
}
