import { Client, type ClientBase, type Pool } from 'pg';
import { canonical } from '../audit/canonical';
import { openPostgres } from '../open-postgres';
import { DatabaseRefused } from '../sql/database-refused';
import { MIGRATION_TABLE } from '../sql/pending-migrations';
import { postgresSettings } from '../sql/postgres-settings';
import { type MovedRow, quoted, type Side } from './move-side';
import type { ValueKind } from './move-tables';

/** A server's database to move from: read only, as it stands at this moment, whatever is written meanwhile. */
export async function postgresToRead(url: string): Promise<Side> {
  const { connectionString } = postgresSettings(url);
  const client = new Client({ connectionString });
  try {
    await client.connect();
    await client.query('begin transaction isolation level repeatable read read only');
  } catch (error) {
    const why = error instanceof Error ? error.message || String(error) : String(error);
    throw new DatabaseRefused(`${nameOf(url)} cannot be read: ${why.split('\n')[0]}.`);
  }
  return sideOf(client, nameOf(url), () => client.end());
}

/** A server's database to move to, brought up to date. */
export async function postgresToFill(url: string): Promise<Side> {
  const { database, close } = await openPostgres(url);
  return sideOf(database.$client, nameOf(url), close);
}

/** The address without the password. */
function nameOf(url: string): string {
  const { host, pathname } = new URL(url);
  return `postgres://${host}${pathname}`;
}

/** Keys are compared by their bytes, as SQLite does, whatever the language of the database. */
const byBytes = (key: string) => `${quoted(key)} collate "C"`;

function sideOf(server: ClientBase | Pool, name: string, close: () => Promise<void>): Side {
  const lines = async (text: string, values: unknown[] = []): Promise<unknown[][]> =>
    (await server.query({ text, values, rowMode: 'array' })).rows;
  const column = async (text: string) => (await lines(text)).map((row) => row[0]);
  return {
    name,
    tables: async () =>
      (await column('select tablename from pg_tables where schemaname = current_schema()'))
        .map(String)
        .filter((one) => one !== MIGRATION_TABLE),
    migrations: async () => (await column(`select created_at from ${MIGRATION_TABLE}`)).map(Number),
    count: async (table) => Number((await column(`select count(*) from ${quoted(table.name)}`))[0]),
    rows: async (table, after, most) => {
      const asked = table.columns.map((one) => asText(quoted(one.name), one.kind)).join(', ');
      const text = `select ${asked} from ${quoted(table.name)} where ${byBytes(table.key)} > $1 order by ${byBytes(table.key)} limit ${most}`;
      return (await lines(text, [after])).map((row) => row.map((value, index) => told(value, table.columns[index]?.kind)));
    },
    lastKey: async (table) => String((await column(`select max(${byBytes(table.key)}) from ${quoted(table.name)}`))[0] ?? ''),
    add: async (table, rows) => {
      const width = table.columns.length;
      const places = rows.map((_, row) => `(${table.columns.map((_, index) => `$${row * width + index + 1}`).join(', ')})`);
      const names = table.columns.map((one) => quoted(one.name)).join(', ');
      const values = rows.flatMap((row) => row.map((value, index) => given(value, table.columns[index]?.kind)));
      await lines(`insert into ${quoted(table.name)} (${names}) values ${places.join(', ')}`, values);
    },
    run: async (text) => void (await server.query(text)),
    close,
  };
}

/** Moments are asked for as milliseconds with all their figures, JSON as its text. */
function asText(name: string, kind: ValueKind): string {
  if (kind === 'moment') return `(extract(epoch from ${name}) * 1000)::float8`;
  return kind === 'json' ? `${name}::text` : name;
}

function told(value: unknown, kind: ValueKind | undefined): MovedRow[number] {
  if (value === null) return null;
  if (kind === 'json') return canonical(JSON.parse(String(value)));
  return kind === 'number' ? Number(value) : (value as string | number | boolean);
}

function given(value: MovedRow[number], kind: ValueKind | undefined): unknown {
  return kind === 'moment' && typeof value === 'number' ? new Date(value) : value;
}
