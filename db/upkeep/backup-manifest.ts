import { createHash } from 'node:crypto';
import fs from 'node:fs';
import type Sqlite from 'better-sqlite3';
import type { KeptHeads } from '../audit/audit-head';
import { BetterSqlite } from '../sql/better-sqlite';
import { MIGRATION_TABLE } from '../sql/pending-migrations';

/** What is written beside a backup, so that it can be told years later whether it is the file that was made. */
export type Manifest = {
  readonly file: string;
  readonly made: string;
  /** Which backup of its folder it is, from 1; those from before they were numbered have none. */
  readonly sequence?: number;
  readonly bytes: number;
  readonly sha256: string;
  /** Moment of the newest migration the file has had, in milliseconds, as the program names it. */
  readonly migration: number;
  readonly rows: Readonly<Record<string, number>>;
  /** The newest link of each clinic's audit chain. */
  readonly audit: KeptHeads;
};

/** A backup's manifest lies beside it under the same name. */
export const manifestOf = (backup: string) => `${backup.replace(/\.db$/, '')}.manifest.json`;

/** What a file holds: rows of each table, newest migration, ends of the audit chains. */
export function contentOf(handle: Sqlite.Database): Pick<Manifest, 'migration' | 'rows' | 'audit'> {
  const rows = Object.fromEntries(
    tablesOf(handle).map((table) => [table, handle.prepare(`select count(*) from "${table}"`).pluck().get() as number]),
  );
  const migration = handle.prepare(`select max(created_at) from ${MIGRATION_TABLE}`).pluck().get() as number;
  const heads = handle.prepare('select clinic_id, length, link from audit_head order by clinic_id').all() as Head[];
  return { rows, migration, audit: Object.fromEntries(heads.map(({ clinic_id, length, link }) => [clinic_id, { length, link }])) };
}

type Head = { readonly clinic_id: string; readonly length: number; readonly link: string };

/** Every table of a file, by name. */
export function tablesOf(handle: Sqlite.Database): readonly string[] {
  const query = "select name from sqlite_master where type = 'table' and name not like 'sqlite\\_%' escape '\\' order by name";
  return handle.prepare(query).pluck().all() as string[];
}

/** SHA-256 of a file, in hexadecimal, read piece by piece. */
export function sha256Of(file: string): string {
  const hash = createHash('sha256');
  const from = fs.openSync(file, 'r');
  const piece = Buffer.alloc(1 << 20);
  for (let read = fs.readSync(from, piece); read > 0; read = fs.readSync(from, piece)) hash.update(piece.subarray(0, read));
  fs.closeSync(from);
  return hash.digest('hex');
}

/** Opens a file to be read only. */
export function openToRead(file: string): Sqlite.Database {
  return new BetterSqlite(file, { readonly: true, fileMustExist: true });
}
