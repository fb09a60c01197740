import { type AuditEntry, chained, type Grown } from './audit/audit-chain';
import { keepHeads } from './audit/audit-head';
import type { Statement } from './audit/statement';
import { TouchedRows } from './audit/touched-rows';
import { getDatabase } from './client';
import type { Database } from './sql/database';
import { runTransaction, type Steps } from './sql/run-steps';

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
 * Entries of the audit come last, whatever their place in the list: the head of a clinic's chain, for which all writers queue, is held no longer
 * than it takes. The rows of content that the steps touched are sealed into the first of them.
 */
export async function inTransaction(statements: readonly Statement[]): Promise<Written> {
  const database = await getDatabase();
  try {
    keepHeads(await runTransaction(database, (tx) => stepsOf(tx, statements)));
    return { kind: 'written' };
  } catch (error) {
    if (error instanceof TouchedNothing) return { kind: 'untouched', step: error.step };
    throw error;
  }
}

function* stepsOf(tx: Database, statements: readonly Statement[]): Steps<readonly Grown[]> {
  const entries: AuditEntry[] = [];
  const touched = new TouchedRows();
  for (const [step, statement] of statements.entries()) {
    if ('entry' in statement) {
      entries.push(statement.entry);
      continue;
    }
    const rows = yield* touched.run(statement(tx));
    if (rows.length === 0) throw new TouchedNothing(step);
  }
  return yield* chained(tx, entries, touched.list());
}
