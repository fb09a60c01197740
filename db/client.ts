import type { BaseSQLiteDatabase } from 'drizzle-orm/sqlite-core';
import { ask } from './ask';
import { writeWaitingHeads } from './audit-head';
import { DatabaseRefused } from './database-refused';
import { MARK } from './move-side';
import { openPostgres } from './open-postgres';
import { openSqlite } from './open-sqlite';

/** The database as every query sees it: asynchronous on both engines, typed as the SQLite half of `columns.ts`. */
export type Database = BaseSQLiteDatabase<'async', unknown>;

type Opened = { readonly database: Database; readonly close: () => Promise<void> };

const held = globalThis as typeof globalThis & { rungwiseDatabases?: Map<string, Promise<Opened>> };

/** Where this process keeps its records: DATABASE_URL, else DB_FILE, else `data/clinic.db`. */
export function databaseAddress(): string {
  return process.env.DATABASE_URL || process.env.DB_FILE || 'data/clinic.db';
}

/**
 * The open database; opened, and brought up to date, at the first call.
 *
 * Throws `DatabaseRefused` when it cannot be used, and plainly during a build: no page may be baked with a clinic's data.
 */
export async function getDatabase(): Promise<Database> {
  if (process.env.NEXT_PHASE === 'phase-production-build') throw new Error('A page asked for the database while it was being built.');
  held.rungwiseDatabases ??= new Map();
  const address = databaseAddress();
  const opening = held.rungwiseDatabases.get(address) ?? open();
  held.rungwiseDatabases.set(address, opening);
  try {
    return (await opening).database;
  } catch (error) {
    held.rungwiseDatabases.delete(address);
    throw error;
  }
}

/** Lets go of the database, so that a command can end. */
export async function closeDatabase(): Promise<void> {
  const opening = held.rungwiseDatabases?.get(databaseAddress());
  held.rungwiseDatabases?.delete(databaseAddress());
  writeWaitingHeads();
  await (await opening)?.close();
}

async function open(): Promise<Opened> {
  const url = process.env.DATABASE_URL;
  const opened = (url ? await openPostgres(url) : await openSqlite(databaseAddress())) as unknown as Opened;
  const mark = url ? `select 1 where to_regclass('${MARK}') is not null` : `select 1 from sqlite_master where name = '${MARK}'`;
  if ((await ask(opened.database, mark)).length === 0) return opened;
  await opened.close();
  throw new DatabaseRefused(
    'The database is being filled by a move that has not ended. Run npm run move again, or use the one it came from.',
  );
}
