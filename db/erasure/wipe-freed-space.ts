import fs from 'node:fs';
import type BetterSqlite from 'better-sqlite3';
import { engine } from '../sql/columns';
import type { Database } from '../sql/database';
import { databaseAddress } from '../sql/database';
import { runSql } from '../sql/run-sql';

/**
 * Overwrites what deleted rows leave behind in the file, and looks for words that must be gone; says how it went.
 *
 * SQLite writes the file anew without its free pages and empties the log. PostgreSQL frees the rows inside its files; its log, replicas
 * and dumps are the server's to clear.
 */
export async function wipeFreedSpace(database: Database, words: readonly string[]): Promise<string> {
  if (engine === 'postgres') {
    await runSql(database, 'vacuum');
    return 'The space was freed. The server’s log, replicas and dumps may hold the patient until they are overwritten.';
  }
  const file = (database as unknown as { $client: BetterSqlite.Database }).$client;
  file.pragma('secure_delete = ON');
  file.exec('vacuum');
  const [emptied] = file.pragma('wal_checkpoint(TRUNCATE)') as { busy: number }[];
  const left = words.filter((word) => ['', '-wal'].some((end) => holds(databaseAddress() + end, word)));
  if (left.length === 0) return 'The file was written anew; neither reference nor name is found in it.';
  return emptied?.busy
    ? 'The file is in use, so that its log could not be emptied yet. Stop the program and start it again.'
    : 'The reference or the name is still found in the file: another record holds the same words.';
}

/** True when the bytes of a file hold a word, as it was typed or in small letters, as the search keeps it. */
function holds(file: string, word: string): boolean {
  if (!fs.existsSync(file)) return false;
  const bytes = fs.readFileSync(file);
  return [word, word.toLowerCase()].some((one) => bytes.includes(Buffer.from(one)));
}
