import { type Column, fillPlaceholders, getTableColumns, getTableName, is, SQL, type Table } from 'drizzle-orm';
import pg from 'pg';
import { engine } from './columns';
import type { Database } from './database';

/** The columns a query gives back, in the order it gives them, each by the name it has in the row. */
type Given = readonly (readonly [name: string, column: Column])[];

/** What of drizzle is used here: the connection, and how a column is called in the database. */
type Inside = {
  readonly session: { readonly client: unknown };
  readonly dialect: { readonly casing: { getColumnCasing(column: Column): string } };
};
type File = { prepare(text: string): { raw(): { all(...values: unknown[]): unknown[][] } } };
type Server = { query(asked: object): Promise<{ readonly rows: unknown[][] }> };

/** Moments, days and spans as the server writes them: the column reads them. As `drizzle-orm/node-postgres` does. */
const AS_WRITTEN: readonly number[] = [1184, 1114, 1082, 1186, 1231, 1115, 1185, 1187, 1182];
const types = {
  getTypeParser: (oid: number, format?: 'text' | 'binary') =>
    AS_WRITTEN.includes(oid) ? (value: unknown) => value : pg.types.getTypeParser(oid as never, format as never),
};

/**
 * A query whose text is made once and kept: building it anew costs more than running it. Values go in and rows come out through the columns,
 * as drizzle sends and reads them. It can be a step of a write.
 */
class ReadyQuery<T> implements PromiseLike<readonly T[]> {
  constructor(
    private readonly database: Database,
    private readonly text: string,
    private readonly values: readonly unknown[],
    private readonly given: Given,
  ) {}

  /** Runs it on SQLite, at once. */
  all(): readonly T[] {
    const { client } = (this.database as unknown as Inside).session;
    return (client as File)
      .prepare(this.text)
      .raw()
      .all(...this.values)
      .map((row) => this.read(row));
  }

  // biome-ignore lint/suspicious/noThenProperty: a query is awaited, as drizzle’s own are.
  then<A = readonly T[], B = never>(
    done?: ((rows: readonly T[]) => A | PromiseLike<A>) | null,
    failed?: ((error: unknown) => B | PromiseLike<B>) | null,
  ): Promise<A | B> {
    return this.run().then(done, failed);
  }

  private async run(): Promise<readonly T[]> {
    if (engine === 'sqlite') return this.all();
    const { client } = (this.database as unknown as Inside).session;
    const answered = await (client as Server).query({ text: this.text, values: this.values, rowMode: 'array', types });
    return answered.rows.map((row) => this.read(row));
  }

  private read(row: readonly unknown[]): T {
    const read: Record<string, unknown> = {};
    for (const [at, [name, column]] of this.given.entries()) {
      const value = row[at];
      read[name] = value === null ? null : column.mapFromDriverValue(value);
    }
    return read as T;
  }
}

type Row<T extends Table> = T['$inferSelect'];

/** Rows put into one table. `returning` gives them whole, as the database keeps them. */
class ReadyInsert<T extends Table> extends ReadyQuery<Row<T>> {
  readonly config: { readonly table: T };

  constructor(database: Database, table: T, text: string, values: readonly unknown[], given: Given) {
    super(database, text, values, given);
    this.config = { table };
  }

  returning(): this {
    return this;
  }
}

const inserts = new Map<string, string>();

/** Puts rows into a table, and gives them back whole. `orNone`: a row that is there already is left as it is, and not given. */
export function readyInsert<T extends Table>(
  database: Database,
  table: T,
  rows: readonly T['$inferInsert'][],
  { orNone = false }: { readonly orNone?: boolean } = {},
): ReadyInsert<T> {
  const given = Object.entries(getTableColumns(table) as Record<string, Column>);
  const key = `${getTableName(table)} ${rows.length} ${orNone}`;
  const text = inserts.get(key) ?? insertText(database, table, given, rows.length, orNone);
  inserts.set(key, text);
  const values = rows.flatMap((row) => given.map(([name, column]) => sent(column, (row as Record<string, unknown>)[name])));
  return new ReadyInsert(database, table, text, values, given);
}

function insertText(database: Database, table: Table, given: Given, rows: number, orNone: boolean): string {
  const { casing } = (database as unknown as Inside).dialect;
  const names = given.map(([, column]) => `"${casing.getColumnCasing(column)}"`).join(', ');
  const place = (at: number) => (engine === 'sqlite' ? '?' : `$${at + 1}`);
  const row = (first: number) => `(${given.map((_, at) => place(first + at)).join(', ')})`;
  const all = Array.from({ length: rows }, (_, at) => row(at * given.length)).join(', ');
  const leave = orNone ? ' on conflict do nothing' : '';
  return `insert into "${getTableName(table)}" (${names}) values ${all}${leave} returning ${names}`;
}

/** A value as the driver takes it; one that is not given is the column’s default. */
function sent(column: Column, value: unknown): unknown {
  const given = value === undefined ? (column.defaultFn?.() ?? column.default ?? null) : value;
  if (is(given, SQL)) throw new Error(`${column.name} is given as SQL, which a ready insert cannot send.`);
  return given === null ? null : column.mapToDriverValue(given);
}

type Built = { toSQL(): { readonly sql: string; readonly params: unknown[] } };

/**
 * A query of one shape with placeholders in it (`sql.placeholder`): its text is made at the first call, and `values` are put in at each.
 *
 * `build` must give the same text each time, with the columns of `columns` in that order.
 */
export function readyQuery<C extends Readonly<Record<string, Column>>>(columns: C, build: (database: Database) => Built) {
  let made: { readonly sql: string; readonly params: unknown[] } | undefined;
  const given = Object.entries(columns);
  return (
    database: Database,
    values: Readonly<Record<string, unknown>>,
  ): ReadyQuery<{ readonly [K in keyof C]: C[K]['_']['data'] | (C[K]['_']['notNull'] extends true ? never : null) }> => {
    made ??= build(database).toSQL();
    return new ReadyQuery(database, made.sql, fillPlaceholders(made.params, values), given);
  };
}
