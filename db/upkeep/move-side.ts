import type { MovedTable } from './move-tables';

/**
 * One row, its values in the order of the table's columns and in a form that is the same on both engines: moments in milliseconds, JSON as
 * text with its keys in order, yes and no as such.
 */
export type MovedRow = readonly (string | number | boolean | null)[];

/** A database that a move reads from or writes to: a SQLite file or a PostgreSQL server. */
export type Side = {
  /** What it is called in sentences; never with a password in it. */
  readonly name: string;
  /** Names of all its tables but the list of migrations. */
  readonly tables: () => Promise<readonly string[]>;
  /** The migrations it has had, by their moments. */
  readonly migrations: () => Promise<readonly number[]>;
  readonly count: (table: MovedTable) => Promise<number>;
  /** The rows that follow a key, in the order of keys by their bytes. */
  readonly rows: (table: MovedTable, after: string, most: number) => Promise<readonly MovedRow[]>;
  /** The greatest key there is; empty when there are no rows. */
  readonly lastKey: (table: MovedTable) => Promise<string>;
  /** Adds rows, all or none. */
  readonly add: (table: MovedTable, rows: readonly MovedRow[]) => Promise<void>;
  /** Runs a statement without answer. */
  readonly run: (text: string) => Promise<void>;
  readonly close: () => Promise<void>;
};

export const quoted = (name: string) => `"${name}"`;
