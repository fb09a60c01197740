import path from 'node:path';
import { type MigrationMeta, readMigrationFiles } from 'drizzle-orm/migrator';
import type { Engine } from './columns';
import { DatabaseRefused } from './database-refused';

/** The table in which each database notes the migrations it has had; drizzle's own name and shape. */
export const MIGRATION_TABLE = '__drizzle_migrations';

/** The table that stands in a database while a move into it has not ended; with it there, the program does not open the database. */
export const UNFINISHED_MOVE = 'unfinished_move';

/** Every migration this program brings for an engine, oldest first. */
export function migrationsOf(engine: Engine): readonly MigrationMeta[] {
  return readMigrationFiles({ migrationsFolder: path.join(process.cwd(), 'db', 'migrations', engine) });
}

/**
 * The migrations a database still lacks, oldest first.
 *
 * Refuses a database that has had a migration this program does not know: a newer program wrote it.
 */
export function pendingMigrations(known: readonly MigrationMeta[], applied: readonly number[], name: string): readonly MigrationMeta[] {
  const ours = new Set(known.map((migration) => migration.folderMillis));
  if (applied.some((one) => !ours.has(one))) {
    throw new DatabaseRefused(`${name} was written by a newer version of this program. Start that version; nothing was changed.`);
  }
  const had = new Set(applied);
  return known.filter((migration) => !had.has(migration.folderMillis));
}
