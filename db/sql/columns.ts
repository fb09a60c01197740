import * as pg from 'drizzle-orm/pg-core';
import * as lite from 'drizzle-orm/sqlite-core';

/** The engine this process keeps its records in: PostgreSQL when DATABASE_URL is set, else one SQLite file. */
export type Engine = 'sqlite' | 'postgres';

export const engine: Engine = process.env.DATABASE_URL ? 'postgres' : 'sqlite';

const onSqlite = {
  table: lite.sqliteTable,
  index: lite.index,
  uniqueIndex: lite.uniqueIndex,
  id: () => lite.text().primaryKey(),
  text: () => lite.text(),
  oneOf: <const T extends readonly [string, ...string[]]>(...values: T) => lite.text({ enum: values }),
  wholeNumber: () => lite.integer(),
  /** A whole number that may pass two thousand million, such as milliseconds. */
  bigNumber: () => lite.integer(),
  decimal: () => lite.real(),
  yesNo: () => lite.integer({ mode: 'boolean' }),
  json: <T>() => lite.text({ mode: 'json' }).$type<T>(),
  moment: () => lite.integer({ mode: 'timestamp_ms' }),
};

const onPostgres = {
  table: pg.pgTable,
  index: pg.index,
  uniqueIndex: pg.uniqueIndex,
  id: () => pg.text().primaryKey(),
  text: () => pg.text(),
  oneOf: <const T extends readonly [string, ...string[]]>(...values: T) => pg.text({ enum: values }),
  wholeNumber: () => pg.integer(),
  bigNumber: () => pg.bigint({ mode: 'number' }),
  decimal: () => pg.doublePrecision(),
  yesNo: () => pg.boolean(),
  json: <T>() => pg.jsonb().$type<T>(),
  moment: () => pg.timestamp({ withTimezone: true, mode: 'date' }),
} satisfies Record<keyof typeof onSqlite, unknown>;

/**
 * The kinds of column both engines share; the only place where they differ.
 *
 * Typed as the SQLite half: row types come out the same on both. Days are `text`, instants are `moment`,
 * whole milliseconds are `bigNumber`, measured decimals are `decimal` (eight bytes on both engines).
 */
export const columns = (engine === 'postgres' ? onPostgres : onSqlite) as unknown as typeof onSqlite;
