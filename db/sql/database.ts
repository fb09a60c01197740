import type { BaseSQLiteDatabase } from 'drizzle-orm/sqlite-core';

/** The database as every query sees it: asynchronous on both engines, typed as the SQLite half of `columns.ts`. */
export type Database = BaseSQLiteDatabase<'async', unknown>;

/** Where this process keeps its records: DATABASE_URL, else DB_FILE, else `data/clinic.db`. */
export function databaseAddress(): string {
  return process.env.DATABASE_URL || process.env.DB_FILE || 'data/clinic.db';
}
