import { sql } from 'drizzle-orm';
import { engine } from './columns';
import type { Database } from './database';

/** Runs one statement of plain SQL and gives its rows, on either engine: for checks that runSql about the database itself. */
export async function runSql<T>(database: Database, text: string): Promise<readonly T[]> {
  const raw = sql.raw(text);
  if (engine === 'sqlite') return database.all<T>(raw);
  const answered = await (database as unknown as { execute: (text: unknown) => Promise<{ rows: T[] }> }).execute(raw);
  return answered.rows;
}
