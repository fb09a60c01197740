import fs from 'node:fs';
import path from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import { headFile, writeHeads } from '../audit/audit-head';
import { migrationsOf } from '../sql/pending-migrations';
import { privateFile, privateFolder } from '../sql/private-files';
import { contentOf, type Manifest, manifestOf, openToRead, sha256Of, tablesOf } from './backup-manifest';

/** How a restore ended: the rows that were compared and found equal, or the sentence that says why nothing was written. */
export type Restored =
  | { readonly kind: 'restored'; readonly rows: number; readonly tables: number; readonly manifest: Manifest }
  | { readonly kind: 'refused'; readonly why: string };

/**
 * Makes a clinic's file of a backup, never over one that is there, and compares the two row by row.
 *
 * The backup must be the file its manifest describes. The heads of its audit chains are put beside the new file.
 */
export async function restoreSqlite(from: string, to: string): Promise<Restored> {
  const taken = ['', '-wal', '-shm'].find((end) => fs.existsSync(to + end));
  if (taken !== undefined) return refused(`${to}${taken} is there already. Move it away first; nothing is overwritten.`);
  const manifest = readManifest(from);
  if (!manifest) return refused(`${manifestOf(from)} is missing or cannot be read: what ${from} should hold is not known.`);
  if (sha256Of(from) !== manifest.sha256) return refused(`${from} is not the file its manifest describes: it was changed or damaged.`);
  if (!migrationsOf('sqlite').some((one) => one.folderMillis === manifest.migration)) {
    return refused(`${from} was written by a newer version of this program. Restore it with that version.`);
  }
  privateFolder(path.dirname(path.resolve(to)));
  const aside = `${to}.partly`;
  const source = openToRead(from);
  try {
    privateFile(aside);
    await source.backup(aside);
    const copy = openToRead(aside);
    const difference = differenceOf(source, copy, manifest);
    copy.close();
    if (difference) return refused(difference);
    fs.renameSync(aside, to);
    setAside(headFile(to));
    writeHeads(headFile(to), manifest.audit);
    const rows = Object.values(manifest.rows).reduce((sum, one) => sum + one, 0);
    return { kind: 'restored', rows, tables: Object.keys(manifest.rows).length, manifest };
  } finally {
    source.close();
    fs.rmSync(aside, { force: true });
  }
}

/** The first difference between two files, in a sentence; undefined when every row of every table is equal. */
function differenceOf(one: BetterSqlite.Database, other: BetterSqlite.Database, manifest: Manifest): string | undefined {
  const { rows, migration, audit } = contentOf(other);
  const described = { rows: manifest.rows, migration: manifest.migration, audit: manifest.audit };
  if (JSON.stringify({ rows, migration, audit }) !== JSON.stringify(described))
    return 'The backup holds something else than its manifest says.';
  for (const table of tablesOf(one)) {
    const query = inOrder(one, table);
    const theirs = other.prepare(query).raw().iterate();
    for (const row of one.prepare(query).raw().iterate()) {
      const { value } = theirs.next();
      if (JSON.stringify(row) !== JSON.stringify(value)) return `Row ${(row as unknown[])[0]} of ${table} differs from the backup.`;
    }
    if (!theirs.next().done) return `${table} has more rows than the backup.`;
  }
  return undefined;
}

/** Every row of a table, its number first. A table that numbers no rows is kept in the order of its key, which is all of a row's beginning. */
function inOrder(file: BetterSqlite.Database, table: string): string {
  const isNumbered = file.prepare('select wr from pragma_table_list(?)').pluck().get(table) === 0;
  return isNumbered
    ? `select rowid as row, * from "${table}" order by rowid`
    : `select row_number() over () as row, * from "${table}" order by 2, 3, 4`;
}

function readManifest(backup: string): Manifest | undefined {
  try {
    return JSON.parse(fs.readFileSync(manifestOf(backup), 'utf8')) as Manifest;
  } catch {
    return undefined;
  }
}

/** The head of a file that is gone is kept: it tells how far the lost history went. */
function setAside(head: string): void {
  if (fs.existsSync(head)) fs.renameSync(head, `${head}.before-restore-${Date.now()}`);
}

function refused(why: string): Restored {
  return { kind: 'refused', why };
}
