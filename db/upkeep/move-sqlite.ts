import fs from 'node:fs';
import type Sqlite from 'better-sqlite3';
import { canonical } from '../audit/canonical';
import { openSqlite } from '../open-sqlite';
import { BetterSqlite } from '../sql/better-sqlite';
import { DatabaseRefused } from '../sql/database-refused';
import { MIGRATION_TABLE } from '../sql/pending-migrations';
import { type MovedRow, quoted, type Side } from './move-side';
import type { MovedTable, ValueKind } from './move-tables';

/** A file to move from: read only, as it stands at this moment, whatever is written meanwhile. */
export async function sqliteToRead(file: string): Promise<Side> {
  if (!fs.existsSync(file)) throw new DatabaseRefused(`${file} is not there.`);
  const handle = new BetterSqlite(file, { readonly: true, fileMustExist: true });
  handle.exec('begin');
  return sideOf(handle, file);
}

/** A file to move to: made when it is not there, and brought up to date. */
export async function sqliteToFill(file: string): Promise<Side> {
  const { database } = await openSqlite(file);
  return sideOf(database.$client, file);
}

function sideOf(handle: Sqlite.Database, name: string): Side {
  const column = (text: string): unknown[] => handle.prepare(text).pluck().all();
  const add = handle.transaction((table: MovedTable, rows: readonly MovedRow[]) => {
    const names = table.columns.map((one) => quoted(one.name)).join(', ');
    const insert = handle.prepare(`insert into ${quoted(table.name)} (${names}) values (${table.columns.map(() => '?').join(', ')})`);
    for (const row of rows) insert.run(row.map((value) => (typeof value === 'boolean' ? Number(value) : value)));
  });
  return {
    name,
    tables: async () =>
      column(`select name from sqlite_master where type = 'table' and name not like 'sqlite\\_%' escape '\\'`)
        .map(String)
        .filter((one) => one !== MIGRATION_TABLE),
    migrations: async () => column(`select created_at from ${MIGRATION_TABLE}`).map(Number),
    count: async (table) => Number(column(`select count(*) from ${quoted(table.name)}`)[0]),
    rows: async (table, after, most) => {
      const names = table.columns.map((one) => quoted(one.name)).join(', ');
      const text = `select ${names} from ${quoted(table.name)} where ${quoted(table.key)} > ? order by ${quoted(table.key)} limit ${most}`;
      const rows = handle.prepare(text).raw().all(after) as unknown[][];
      return rows.map((row) => row.map((value, index) => told(value, table.columns[index]?.kind)));
    },
    lastKey: async (table) => String(column(`select max(${quoted(table.key)}) from ${quoted(table.name)}`)[0] ?? ''),
    add: async (table, rows) => add.immediate(table, rows),
    run: async (text) => void handle.exec(text),
    close: async () => void handle.close(),
  };
}

function told(value: unknown, kind: ValueKind | undefined): MovedRow[number] {
  if (value === null) return null;
  if (kind === 'yes-no') return value === 1;
  if (kind === 'json') return canonical(JSON.parse(String(value)));
  return value as string | number;
}
