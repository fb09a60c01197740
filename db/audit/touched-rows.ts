import { createHash } from 'node:crypto';
import { getTableName, is, type Table } from 'drizzle-orm';
import { PgDeleteBase } from 'drizzle-orm/pg-core';
import { SQLiteDeleteBase } from 'drizzle-orm/sqlite-core';
import type { SealedRow } from '../schema/schema-clinic';
import type { Query, Steps } from '../sql/run-steps';
import { canonical } from './canonical';
import { CONTENT_TABLES, type ContentTable } from './content-tables';

/** A row of content as a write left it: its words in a fixed order, or null when it is gone. */
export type TouchedRow = { readonly table: string; readonly id: string; readonly words: string | null };

/** The rows of content that a write touched, each as it was left last. */
export class TouchedRows {
  private readonly byName = new Map<string, TouchedRow>();

  /** Runs one query of a write. Of a table with content whole rows are asked back, as the database keeps them. */
  *run(query: Query): Steps<readonly unknown[]> {
    return this.note(query, yield this.asked(query));
  }

  /** The query as it is sent. */
  asked(query: Query): Query {
    return writtenTable(query) ? (query as unknown as Returning).returning() : query;
  }

  /** Takes in what a query gave that was sent as `asked` says. */
  note(query: Query, rows: readonly unknown[]): readonly unknown[] {
    const table = writtenTable(query);
    if (!table) return rows;
    const isGone = is(query, SQLiteDeleteBase) || is(query, PgDeleteBase);
    for (const row of rows as readonly Row[]) this.add({ table: table.name, id: row.id, words: isGone ? null : wordsOf(table, row) });
    return rows;
  }

  /** Runs the queries of other steps so. */
  *runAll<T>(steps: Steps<T>): Steps<T> {
    let step = steps.next();
    while (!step.done) step = steps.next(yield* this.run(step.value));
    return step.value;
  }

  add(row: TouchedRow): void {
    this.byName.set(`${row.table} ${row.id}`, row);
  }

  list(): readonly TouchedRow[] {
    return [...this.byName.values()];
  }
}

type Row = Readonly<Record<string, unknown>> & { readonly id: string };
type Returning = { readonly config: { readonly table: Table }; returning(): Query };

function writtenTable(query: Query): ContentTable | undefined {
  if (!('returning' in query) || !('config' in query)) return undefined;
  return CONTENT_TABLES.get(getTableName((query as unknown as Returning).config.table));
}

/**
 * What is sealed of a row: the JSON of its values by name, with those that are null left away, so that a column that comes later
 * changes no row from before it.
 */
export function wordsOf(table: ContentTable, row: Readonly<Record<string, unknown>>): string {
  const kept: Record<string, unknown> = {};
  for (const column of table.columns) {
    const value = row[column];
    if (value !== null && value !== undefined) kept[column] = value;
  }
  return canonical(kept);
}

/**
 * The digest by which a row enters its deed: salted with the deed's salt, which goes when the patient is erased.
 *
 * It needs no key: the deed that holds it is sealed with one.
 */
export function sealedRow(salt: string, { table, id, words }: TouchedRow): SealedRow {
  return [table, id, words === null ? null : digestOfRow(salt, table, words)];
}

/** SHA-256 of salt, table and words, base64url. */
export function digestOfRow(salt: string, table: string, words: string): string {
  return createHash('sha256').update(`${salt}\n${table}\n${words}`).digest('base64url');
}
