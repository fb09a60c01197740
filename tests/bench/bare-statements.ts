import type Sqlite from 'better-sqlite3';
import { Client } from 'pg';
import { BetterSqlite } from '@/db/sql/better-sqlite';

type Row = Record<string, unknown>;
type Value = string | number | null;

/** Statements sent straight to the engine's own driver, with the durability the program asks for: what the floors of the bench are made of. */
export type Bare = {
  /** Placeholders are `$1`, `$2` on both engines, each once and in order. */
  readonly rows: (text: string, values?: readonly Value[]) => Promise<readonly Row[]>;
  /** All in one transaction. */
  readonly commit: (statements: readonly { readonly text: string; readonly values: readonly Value[] }[]) => Promise<void>;
  readonly close: () => Promise<void>;
};

/** The database that the environment names, without the program. */
export async function bareStatements(): Promise<Bare> {
  return process.env.DATABASE_URL ? onServer(process.env.DATABASE_URL) : onFile(process.env.DB_FILE ?? '');
}

function onFile(file: string): Bare {
  const handle = new BetterSqlite(file);
  handle.pragma('journal_mode = WAL');
  handle.pragma('synchronous = FULL');
  handle.pragma('foreign_keys = ON');
  const made = new Map<string, Sqlite.Statement>();
  const statement = (text: string) => {
    const found = made.get(text) ?? handle.prepare(text.replace(/\$\d+/g, '?'));
    made.set(text, found);
    return found;
  };
  const commit = handle.transaction((statements: Parameters<Bare['commit']>[0]) => {
    for (const { text, values } of statements) statement(text).run(...values);
  });
  return {
    rows: async (text, values = []) => statement(text).all(...values) as Row[],
    commit: async (statements) => commit.immediate(statements),
    close: async () => void handle.close(),
  };
}

async function onServer(url: string): Promise<Bare> {
  const client = new Client({ connectionString: url });
  await client.connect();
  return {
    rows: async (text, values = []) => (await client.query(text, [...values])).rows,
    commit: async (statements) => {
      await client.query('begin');
      for (const { text, values } of statements) await client.query({ name: text.slice(0, 60), text, values: [...values] });
      await client.query('commit');
    },
    close: () => client.end(),
  };
}
