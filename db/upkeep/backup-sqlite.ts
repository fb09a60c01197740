import fs from 'node:fs';
import path from 'node:path';
import type Sqlite from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import type { OuterHeads } from '../audit/audit-head';
import { BetterSqlite } from '../sql/better-sqlite';
import type { Database } from '../sql/database';
import { fileStamp, privateFile, privateFolder } from '../sql/private-files';
import { contentOf, type Manifest, manifestOf, openToRead, sha256Of } from './backup-manifest';
import { checkContents } from './check-contents';
import { checkHistory } from './check-data';
import { backupsIn } from './rotate-backups';

/** How a backup ended: made and found whole, or the sentences that say why it is not kept. */
export type BackedUp =
  | { readonly kind: 'made'; readonly backup: string; readonly manifest: Manifest }
  | { readonly kind: 'refused'; readonly problems: readonly string[] };

/**
 * Copies an open SQLite file into a folder by the online backup call, checks the copy, and writes its manifest.
 *
 * Nobody has to stop working: the copy is the file as it stood at one moment. It is one file without a log, flushed before it gets its
 * name. A copy that fails a check, or whose history is shorter than one of the heads known outside, is thrown away and said. Source: SQLite, "Online Backup API"; a plain copy of an open file may be corrupt.
 */
export async function backupSqlite(
  database: Database,
  name: string,
  folder: string,
  at: Date,
  outer: readonly OuterHeads[] = [],
): Promise<BackedUp> {
  privateFolder(folder);
  const backup = path.join(folder, `${name}-${fileStamp(at)}.db`);
  if (fs.existsSync(backup)) return { kind: 'refused', problems: [`${backup} is there already.`] };
  const aside = `${backup}.partly`;
  privateFile(aside);
  await (database as unknown as { $client: Sqlite.Database }).$client.backup(aside);
  withoutLog(aside);
  const copy = openToRead(aside);
  try {
    const problems = await problemsOf(copy, outer);
    if (problems.length > 0) return { kind: 'refused', problems };
    const manifest = {
      file: path.basename(backup),
      made: at.toISOString(),
      sequence: 1 + Math.max(0, ...backupsIn(folder, name).map((one) => one.sequence)),
      bytes: fs.statSync(aside).size,
      sha256: sha256Of(aside),
      ...contentOf(copy),
    };
    fs.writeFileSync(manifestOf(backup), `${JSON.stringify(manifest, null, 2)}\n`, { mode: 0o600, flush: true });
    fs.renameSync(aside, backup);
    return { kind: 'made', backup, manifest };
  } finally {
    copy.close();
    fs.rmSync(aside, { force: true });
  }
}

async function problemsOf(copy: Sqlite.Database, outer: readonly OuterHeads[]): Promise<readonly string[]> {
  const pages = (copy.pragma('integrity_check') as { integrity_check: string }[]).filter((one) => one.integrity_check !== 'ok');
  const orphans = copy.pragma('foreign_key_check') as unknown[];
  const database = drizzle(copy, { casing: 'snake_case' }) as unknown as Database;
  const { findings, heads, seals } = await checkHistory(database, outer);
  const contents = await checkContents(database, seals, new Map(Object.entries(heads).map(([id, { length }]) => [id, length])));
  return [
    ...pages.map((one) => `The copy is damaged: ${one.integrity_check}.`),
    ...(orphans.length > 0 ? [`The copy has ${orphans.length} rows without their owner.`] : []),
    ...[...findings, contents].flatMap((one) => one.problems),
  ];
}

/** Makes the copy one plain file: no write-ahead log beside it is needed to read it. */
function withoutLog(file: string): void {
  const handle = new BetterSqlite(file);
  handle.pragma('journal_mode = DELETE');
  handle.close();
  const opened = fs.openSync(file, 'r+');
  fs.fsyncSync(opened);
  fs.closeSync(opened);
}
