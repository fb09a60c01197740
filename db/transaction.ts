import { type AuditEntry, chained, type Grown } from './audit/audit-chain';
import { keepHeads } from './audit/audit-head';
import type { Statement } from './audit/statement';
import { TouchedRows } from './audit/touched-rows';
import { getDatabase } from './client';
import { engine } from './sql/columns';
import type { Database } from './sql/database';
import { type Ended, runTransaction, type Steps, Together } from './sql/run-steps';

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
  const entries = statements.flatMap((statement) => ('entry' in statement ? [statement.entry] : []));
  const touched = new TouchedRows();
  const wanted = statements.flatMap((statement, step) => ('entry' in statement ? [] : [{ step, statement }]));
  if (engine === 'postgres' && wanted.length > 1) yield* sentTogether(tx, wanted, touched);
  else {
    for (const { step, statement } of wanted) {
      if ((yield* touched.run(statement(tx))).length === 0) throw new TouchedNothing(step);
    }
  }
  return yield* chained(tx, entries, touched.list());
}

type Wanted = { readonly step: number; readonly statement: Exclude<Statement, { readonly entry: AuditEntry }> };

/** The first that failed or touched no row counts; what the server said of those behind it follows from that. */
function* sentTogether(tx: Database, wanted: readonly Wanted[], touched: TouchedRows): Steps<void> {
  const queries = wanted.map(({ statement }) => statement(tx));
  const ended = (yield new Together(queries.map((query) => touched.asked(query)))) as readonly Ended[];
  for (const [at, one] of ended.entries()) {
    const [query, step] = [queries[at], wanted[at]?.step];
    if (!query || step === undefined) continue;
    if (one.status === 'rejected') throw one.reason;
    if (touched.note(query, one.value).length === 0) throw new TouchedNothing(step);
  }
}
