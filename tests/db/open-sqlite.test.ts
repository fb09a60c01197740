import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type Sqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSqlite } from '@/db/open-sqlite';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import { DatabaseRefused } from '@/db/sql/database-refused';
import { migrationsOf } from '@/db/sql/pending-migrations';

describe('a clinic’s file', () => {
  let folder: string;
  beforeAll(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-open-'));
  });
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

  async function refusalOf(file: string): Promise<DatabaseRefused> {
    try {
      await (await openSqlite(file)).close();
    } catch (error) {
      if (error instanceof DatabaseRefused) return error;
      throw error;
    }
    throw new Error('it opened');
  }

  it('is made with its folder when there is none, and opens again unchanged', async () => {
    const file = path.join(folder, 'new', 'clinic.db');
    await (await openSqlite(file)).close();
    await (await openSqlite(file)).close();
    expect(fs.readdirSync(path.dirname(file))).toEqual(['clinic.db']);
  });

  it('keeps its log safe against power loss', async () => {
    const file = path.join(folder, 'durable.db');
    const opened = await openSqlite(file);
    const handle = (opened.database as unknown as { $client: Sqlite.Database }).$client;
    const pragma = (name: string) => handle.pragma(name, { simple: true });
    expect([pragma('journal_mode'), pragma('synchronous'), pragma('foreign_keys'), pragma('busy_timeout')]).toEqual(['wal', 2, 1, 5]);
    await opened.close();
  });

  it('written by a newer program is refused in one sentence and left alone', async () => {
    const file = path.join(folder, 'newer.db');
    await (await openSqlite(file)).close();
    const handle = new BetterSqlite(file);
    handle.prepare('insert into __drizzle_migrations (hash, created_at) values (?, ?)').run('of the future', 4_000_000_000_000);
    handle.close();
    const before = fs.readFileSync(file);
    const refused = await refusalOf(file);
    expect(refused.message).toBe(`${file} was written by a newer version of this program. Start that version; nothing was changed.`);
    expect(refused.stack).toBe(refused.message);
    expect(fs.readFileSync(file).equals(before)).toBe(true);
  });

  it('that is no database is refused in one sentence and left alone', async () => {
    const file = path.join(folder, 'letter.db');
    fs.writeFileSync(file, 'Dear clinic, this is a letter and not a database. '.repeat(100));
    const refused = await refusalOf(file);
    expect(refused.message).toMatch(/^\S+letter\.db cannot be opened as a clinic's database: .*not a database\.$/);
    expect(refused.message).not.toContain('\n');
    expect(fs.readFileSync(file, 'utf8')).toMatch(/^Dear clinic/);
  });

  it('that is a folder is refused in one sentence', async () => {
    const file = path.join(folder, 'folder.db');
    fs.mkdirSync(file);
    expect((await refusalOf(file)).message).toMatch(/^\S+folder\.db cannot be opened as a clinic's database: [^\n]+\.$/);
  });

  it('that lacks a migration is copied before it is changed', async () => {
    const file = path.join(folder, 'older.db');
    const [first, second] = migrationsOf('sqlite');
    if (!first || !second) throw new Error('two migrations are needed');
    const handle = new BetterSqlite(file);
    handle.exec('create table __drizzle_migrations (id integer primary key, hash text not null, created_at numeric)');
    for (const statement of first.sql) handle.exec(statement);
    handle.prepare('insert into __drizzle_migrations (hash, created_at) values (?, ?)').run(first.hash, first.folderMillis);
    handle.prepare("insert into clinic values ('c', 'Harbour Lane', '', 'in', 'lb', 'UTC')").run();
    handle.close();
    const opened = await openSqlite(file);
    await opened.close();
    const moment = `${new Date(second.folderMillis).toISOString().slice(0, 19).replaceAll(':', '-')}Z`;
    const copy = new BetterSqlite(`${file}.before-${moment}`, { readonly: true });
    const count = (from: Sqlite.Database) => from.prepare('select count(*) from __drizzle_migrations').pluck().get();
    expect(copy.prepare('select name from clinic').pluck().get()).toBe('Harbour Lane');
    expect(count(copy)).toBe(1);
    copy.close();
    const now = new BetterSqlite(file, { readonly: true });
    expect(count(now)).toBe(migrationsOf('sqlite').length);
    now.close();
  });

  it('that cannot be used ends a command with that one line, no stack, and code 1', () => {
    const file = path.join(folder, 'letter.db');
    fs.writeFileSync(file, 'not a database at all, only words. '.repeat(100));
    const ended = spawnSync(process.execPath, ['--import', 'tsx', 'app/_commands/start/check-database.ts'], {
      env: { ...process.env, DATABASE_URL: '', DB_FILE: file },
      encoding: 'utf8',
    });
    expect(ended.stdout).toBe('');
    expect(ended.stderr).toMatch(/^\S+letter\.db cannot be opened as a clinic's database: [^\n]+\.\n$/);
    expect(ended.status).toBe(1);
  });
});
