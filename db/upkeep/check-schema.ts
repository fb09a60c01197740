import { BetterSqlite } from '../sql/better-sqlite';
import { engine } from '../sql/columns';
import type { Database } from '../sql/database';
import { MIGRATION_TABLE, migrationsOf } from '../sql/pending-migrations';
import { runSql } from '../sql/run-sql';

/** One thing looked at: what was found in a sentence, and the problems in one each. */
export type Finding = { readonly looked: string; readonly problems: readonly string[] };

/** Checks that the database is whole by its own means, has had every migration, and still has every table, index and trigger of them. */
export async function checkSchema(database: Database): Promise<readonly Finding[]> {
  return [
    ...(engine === 'sqlite' ? [await integrityOfFile(database)] : [await integrityOfServer(database)]),
    await migrationsHad(database),
    engine === 'sqlite' ? await shapeOfFile(database) : await triggersOfServer(database),
  ];
}

async function integrityOfFile(database: Database): Promise<Finding> {
  const pages = await runSql<{ integrity_check: string }>(database, 'pragma integrity_check');
  const orphans = await runSql<{ table: string; rowid: number; parent: string }>(database, 'pragma foreign_key_check');
  return {
    looked: 'Every page and index of the file was read, and every reference followed.',
    problems: [
      ...pages.filter((one) => one.integrity_check !== 'ok').map((one) => `The file is damaged: ${one.integrity_check}.`),
      ...orphans.map((one) => `Row ${one.rowid} of ${one.table} belongs to a row of ${one.parent} that is not there.`),
    ],
  };
}

/** The pages are the server's to check (`data_checksums`, `pg_amcheck`); here: nothing is left unchecked, and every row can be read. */
async function integrityOfServer(database: Database): Promise<Finding> {
  const loose = await runSql<{ name: string }>(
    database,
    "select conname as name from pg_constraint where not convalidated and connamespace = 'public'::regnamespace",
  );
  const broken = await runSql<{ name: string }>(database, 'select indexrelid::regclass::text as name from pg_index where not indisvalid');
  const tables = await runSql<{ name: string }>(database, "select tablename as name from pg_tables where schemaname = 'public'");
  for (const { name } of tables) await runSql(database, `select count(t::text) from "${name}" t`);
  const [sums] = await runSql<{ data_checksums: string }>(database, 'show data_checksums');
  return {
    looked: `Every row of ${tables.length} tables was read. Page checksums of the server are ${sums?.data_checksums ?? 'unknown'}.`,
    problems: [
      ...loose.map(({ name }) => `The rule ${name} was never checked against the rows that are there.`),
      ...broken.map(({ name }) => `The index ${name} is not valid.`),
    ],
  };
}

async function migrationsHad(database: Database): Promise<Finding> {
  const had = await runSql<{ hash: string; created_at: number | string }>(database, `select hash, created_at from ${MIGRATION_TABLE}`);
  const hashOf = new Map(had.map((one) => [Number(one.created_at), one.hash]));
  const known = migrationsOf(engine);
  const missing = known.filter((one) => !hashOf.has(one.folderMillis));
  const changed = known.filter((one) => hashOf.has(one.folderMillis) && hashOf.get(one.folderMillis) !== one.hash);
  return {
    looked: `${had.length} of ${known.length} migrations were had.`,
    problems: [
      ...missing.map((one) => `The migration of ${dayOf(one.folderMillis)} is missing.`),
      ...changed.map((one) => `The migration of ${dayOf(one.folderMillis)} was had with other words than this program brings.`),
      ...(had.length > known.length ? ['A newer program has changed this database.'] : []),
    ],
  };
}

type Shape = { readonly type: string; readonly name: string; readonly sql: string | null };

/** Compares with a file made afresh from the same migrations: tables, indexes and triggers, to the letter. */
async function shapeOfFile(database: Database): Promise<Finding> {
  const query = "select type, name, sql from sqlite_master where name not like 'sqlite\\_%' escape '\\'";
  const fresh = new BetterSqlite(':memory:');
  fresh.exec(`create table if not exists ${MIGRATION_TABLE} (id integer primary key, hash text not null, created_at numeric)`);
  for (const migration of migrationsOf('sqlite')) for (const statement of migration.sql) fresh.exec(statement);
  const wanted = new Map((fresh.prepare(query).all() as Shape[]).map((one) => [`${one.type} ${one.name}`, one.sql]));
  fresh.close();
  const found = new Map((await runSql<Shape>(database, query)).map((one) => [`${one.type} ${one.name}`, one.sql]));
  const triggers = [...wanted.keys()].filter((name) => name.startsWith('trigger ')).length;
  return {
    looked: `${wanted.size} tables, indexes and triggers were compared with the migrations, ${triggers} triggers among them.`,
    problems: [
      ...[...wanted].filter(([name]) => !found.has(name)).map(([name]) => `The ${name} is missing.`),
      ...[...found].filter(([name]) => !wanted.has(name)).map(([name]) => `The ${name} is not of this program.`),
      ...[...wanted].filter(([name, sql]) => found.has(name) && found.get(name) !== sql).map(([name]) => `The ${name} was changed.`),
    ],
  };
}

async function triggersOfServer(database: Database): Promise<Finding> {
  const wanted = new Set<string>();
  for (const statement of migrationsOf('postgres').flatMap((one) => one.sql)) {
    const [, verb, name, table] = /(CREATE|DROP) TRIGGER "(\w+)"[^"]* ON "(\w+)"/.exec(statement) ?? [];
    if (verb === 'CREATE') wanted.add(`${name} on ${table}`);
    if (verb === 'DROP') wanted.delete(`${name} on ${table}`);
  }
  const rows = await runSql<{ name: string; on: boolean }>(
    database,
    "select tgname || ' on ' || tgrelid::regclass::text as name, tgenabled = 'O' as on from pg_trigger where not tgisinternal",
  );
  const on = new Map(rows.map((one) => [one.name.replaceAll('"', ''), one.on]));
  return {
    looked: `${wanted.size} triggers were looked for.`,
    problems: [
      ...[...wanted].filter((name) => !on.has(name)).map((name) => `The trigger ${name} is missing.`),
      ...[...wanted].filter((name) => on.get(name) === false).map((name) => `The trigger ${name} is switched off.`),
    ],
  };
}

function dayOf(millis: number): string {
  return new Date(millis).toISOString().slice(0, 16);
}
