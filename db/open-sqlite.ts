import fs from 'node:fs';
import path from 'node:path';
import type Sqlite from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import type { Grown } from './audit/audit-chain';
import { headFile, type KeptHeads, mergeHeads, readHeads, writeHeads } from './audit/audit-head';
import { sealEarlier } from './audit/seal-audit';
import { sealContents } from './audit/seal-contents';
import { BetterSqlite } from './sql/better-sqlite';
import type { Database } from './sql/database';
import { DatabaseRefused } from './sql/database-refused';
import { MIGRATION_TABLE, migrationsOf, pendingMigrations } from './sql/pending-migrations';
import { fileStamp, privateFile, privateFolder } from './sql/private-files';
import { runSteps } from './sql/run-steps';
import { cacheStatements } from './sql/statement-cache';

/** Waits while the file is opened and brought up to date; nobody is served yet. */
const OPENING_WAIT_MS = 5000;

/** The driver's own wait stops the whole process: from then on a write waits in `storage-trouble.ts`. */
const WAIT_MS = 5;

/**
 * Opens a clinic's file, brings it up to date, and checks that it will keep what it is given.
 *
 * Write-ahead log, `synchronous=FULL`, foreign keys, a busy wait of five milliseconds: set, then read back.
 * A file that lacks a migration is first copied beside itself with the online backup call, under the moment of that migration.
 */
export async function openSqlite(file: string) {
  const handle = openFile(file);
  try {
    await migrateFile(handle, file);
    assertDurable(handle);
  } catch (error) {
    handle.close();
    throw refusal(error, file);
  }
  return { database: drizzle(cacheStatements(handle), { casing: 'snake_case' }), close: async () => void handle.close() };
}

function openFile(file: string): Sqlite.Database {
  try {
    privateFolder(path.dirname(path.resolve(file)));
    // SQLite gives its log and shared index the mode of the file itself.
    for (const one of [file, `${file}-wal`, `${file}-shm`])
      if (one === file || fs.existsSync(/* turbopackIgnore: true */ one)) privateFile(one);
    const handle = new BetterSqlite(file, { timeout: OPENING_WAIT_MS });
    handle.pragma('journal_mode = WAL');
    handle.pragma('synchronous = FULL');
    return handle;
  } catch (error) {
    throw refusal(error, file);
  }
}

function appliedMigrations(handle: Sqlite.Database): number[] {
  const table = handle.prepare("select name from sqlite_master where type = 'table' and name = ?").get(MIGRATION_TABLE);
  if (!table) return [];
  return handle.prepare(`select created_at from ${MIGRATION_TABLE}`).pluck().all().map(Number);
}

async function migrateFile(handle: Sqlite.Database, file: string): Promise<void> {
  const known = migrationsOf('sqlite');
  const applied = appliedMigrations(handle);
  const pending = pendingMigrations(known, applied, file);
  if (pending.length === 0) return;
  if (applied.length > 0) {
    const before = `${file}.before-${fileStamp(new Date(pending[0]?.folderMillis ?? 0))}`;
    privateFile(before);
    await handle.backup(before);
  }
  handle.pragma('foreign_keys = OFF');
  const migrate = handle.transaction((): { readonly heads: KeptHeads; readonly grown: readonly Grown[] } => {
    handle.exec(`create table if not exists ${MIGRATION_TABLE} (id integer primary key, hash text not null, created_at numeric)`);
    for (const migration of pendingMigrations(known, appliedMigrations(handle), file)) {
      for (const statement of migration.sql) handle.exec(statement);
      handle.prepare(`insert into ${MIGRATION_TABLE} (hash, created_at) values (?, ?)`).run(migration.hash, migration.folderMillis);
    }
    const broken = handle.pragma('foreign_key_check') as unknown[];
    if (broken.length > 0) throw new DatabaseRefused(`${file} has ${broken.length} rows without their owner. Nothing was changed.`);
    const tx = drizzle(handle, { casing: 'snake_case' }) as unknown as Database;
    return { heads: runSteps(sealEarlier(tx)), grown: runSteps(sealContents(tx, new Date())) };
  });
  const { heads, grown } = migrate.immediate();
  if (Object.keys(heads).length > 0) writeHeads(headFile(file), { ...readHeads(headFile(file)), ...heads });
  if (grown.length > 0) mergeHeads(headFile(file), grown);
}

function assertDurable(handle: Sqlite.Database): void {
  handle.pragma('foreign_keys = ON');
  handle.pragma(`busy_timeout = ${WAIT_MS}`);
  const found = ['journal_mode', 'synchronous', 'foreign_keys', 'busy_timeout'].map((name) => handle.pragma(name, { simple: true }));
  const wanted = ['wal', 2, 1, WAIT_MS];
  if (found.some((value, index) => value !== wanted[index])) {
    throw new DatabaseRefused(`the file system will not keep a write-ahead log safely (asked ${wanted}, got ${found})`);
  }
}

function refusal(error: unknown, file: string): DatabaseRefused {
  if (error instanceof DatabaseRefused) return error;
  const why = error instanceof Error ? error.message.split('\n')[0] : String(error);
  return new DatabaseRefused(`${file} cannot be opened as a clinic's database: ${why}.`);
}
