import { type Database, getDatabase } from './client';
import { engine } from './columns';
import { tryAgain } from './try-again';

/** One step of a write: a query that returns the rows it touched. */
export type Statement = (tx: Database) => PromiseLike<readonly unknown[]>;

/** All steps were written, or none was because one of them (counted from 0) touched no row. */
export type Written = { readonly kind: 'written' } | { readonly kind: 'untouched'; readonly step: number };

class TouchedNothing extends Error {
  constructor(readonly step: number) {
    super(`step ${step} touched no row`);
  }
}

/**
 * Writes a list of statements: all of them or none.
 *
 * A statement that touches no row undoes all and is named in the answer. That one rule gives the check of a revision number
 * (`where id and revision`) and the single row of a form sent twice (`onConflictDoNothing`).
 * SQLite runs the list in one immediate transaction without a pause; PostgreSQL awaits each in one transaction, and a transaction it
 * undid in favour of another one is run again.
 */
export async function writeTogether(statements: readonly Statement[]): Promise<Written> {
  const database = await getDatabase();
  try {
    if (engine === 'sqlite') runOnSqlite(database, statements);
    else await tryAgain(() => runOnPostgres(database, statements));
    return { kind: 'written' };
  } catch (error) {
    if (error instanceof TouchedNothing) return { kind: 'untouched', step: error.step };
    throw error;
  }
}

type Immediate = { transaction: (body: (tx: Database) => void, options: { behavior: 'immediate' }) => void };

function runOnSqlite(database: Database, statements: readonly Statement[]): void {
  (database as unknown as Immediate).transaction(
    (tx) => {
      for (const [step, statement] of statements.entries()) {
        const rows = (statement(tx) as unknown as { all: () => readonly unknown[] }).all();
        if (rows.length === 0) throw new TouchedNothing(step);
      }
    },
    { behavior: 'immediate' },
  );
}

async function runOnPostgres(database: Database, statements: readonly Statement[]): Promise<void> {
  await database.transaction(async (tx) => {
    for (const [step, statement] of statements.entries()) {
      const rows = await statement(tx as unknown as Database);
      if (rows.length === 0) throw new TouchedNothing(step);
    }
  });
}
