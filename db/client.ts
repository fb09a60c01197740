import { writeWaitingHeads } from './audit/audit-head';
import { openPostgres } from './open-postgres';
import { openSqlite } from './open-sqlite';
import { type Database, databaseAddress } from './sql/database';
import { DatabaseRefused } from './sql/database-refused';
import { UNFINISHED_MOVE } from './sql/pending-migrations';
import { runSql } from './sql/run-sql';

type Opened = { readonly database: Database; readonly close: () => Promise<void> };

const held = globalThis as typeof globalThis & { rungwiseDatabases?: Map<string, Promise<Opened>> };

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
  const mark = url
    ? `select 1 where to_regclass('${UNFINISHED_MOVE}') is not null`
    : `select 1 from sqlite_master where name = '${UNFINISHED_MOVE}'`;
  if ((await runSql(opened.database, mark)).length === 0) return opened;
  await opened.close();
  throw new DatabaseRefused(
    'The database is being filled by a move that has not ended. Run npm run move again, or use the one it came from.',
  );
}
