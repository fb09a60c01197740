import { spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import { calendarDay } from '@/lib/units/calendar-day';
import { bulkClinic } from '@/tests/bulk-clinic';
import { savePaths } from '@/tests/faults/save-paths';
import { type PostgresServer, startPostgres } from '@/tests/postgres-server';
import { type ClinicOn, clinicOn } from './clinic-on';

const ROOT = path.resolve(import.meta.dirname, '../..');
/** Letters of one to four bytes, a line's end that JSON escapes, quotes. */
const WORDS = 'Ünï ẞ 数 😀 \u2028 "quoted" \'twice\' \\ back';

describe('a clinic moved from a file to a server and back', () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-move-'));
  let clinic: ClinicOn;
  let server: PostgresServer;

  /** Every way of writing was used once, and there are enough patients for a move to be stopped among them. */
  beforeAll(async () => {
    clinic = await clinicOn('sqlite');
    for (const one of savePaths(clinic, 'HL-0001', WORDS)) await one.write();
    await bulkClinic(clinic.stranger, 3000, calendarDay('2026-11-25'));
    server = await startPostgres();
  });
  afterAll(async () => {
    await clinic.close();
    await server?.stop();
    fs.rmSync(folder, { recursive: true, force: true });
  });

  async function move(from: string, to: string) {
    const { moveDatabase } = await import('@/db/upkeep/move-database');
    const { sqliteToFill, sqliteToRead } = await import('@/db/upkeep/move-sqlite');
    const { postgresToFill, postgresToRead } = await import('@/db/upkeep/move-postgres');
    const source = await (from.startsWith('postgres:') ? postgresToRead : sqliteToRead)(from);
    const target = await (to.startsWith('postgres:') ? postgresToFill : sqliteToFill)(to);
    const moved = await moveDatabase(source, target);
    await Promise.all([source.close(), target.close()]);
    return moved;
  }

  /** An empty database on the server. */
  async function fresh(name: string): Promise<string> {
    const { Client } = await import('pg');
    const client = new Client({ connectionString: server.url });
    await client.connect();
    await client.query(`create database ${name}`);
    await client.end();
    return server.url.replace(/postgres$/, name);
  }

  it('has every row of every table as it was', async () => {
    const there = await fresh('there');
    const back = path.join(folder, 'back.db');
    expect(await move(clinic.file, there)).toMatchObject({ kind: 'moved', alreadyThere: 0 });
    expect(await move(there, back)).toMatchObject({ kind: 'moved', alreadyThere: 0 });
    const was = everything(clinic.file);
    expect(everything(back)).toEqual(was);
    expect(Object.values(was).filter((rows) => rows.length > 0).length).toBeGreaterThan(25);
    const env = { DATABASE_URL: there, AUDIT_KEY: fs.readFileSync(path.join(path.dirname(clinic.file), 'audit-key'), 'utf8').trim() };
    expect(command('verify-data', [], env)).toMatch(/Everything holds\.\n$/);
  });

  it('that was killed on the way is not opened, goes on where it stood, and has nothing twice', async () => {
    const there = await fresh('killed');
    const given = ['--from', clinic.file, '--to', there];
    await killedWhileItSays('work_line: 5000', given);
    expect(command('start/check-database', [], { DATABASE_URL: there })).toMatch(/move that has not ended/);
    expect(command('move', given)).toMatch(/ [1-9]\d* were there from a move that had been stopped\.\n.*: equal\.\n/);
    const back = path.join(folder, 'back-of-killed.db');
    expect(await move(there, back)).toMatchObject({ kind: 'moved' });
    expect(everything(back)).toEqual(everything(clinic.file));
  });

  it('is refused by a database in use, and by one that holds the beginning of another move', async () => {
    const other = path.join(folder, 'other.db');
    expect(await move(clinic.file, other)).toMatchObject({ kind: 'moved' });
    expect(await move(clinic.file, other)).toMatchObject({ kind: 'refused', why: expect.stringMatching(/is not empty/) });
    const file = new BetterSqlite(other);
    file.exec("create table unfinished_move (id integer); update clinic set name = 'Another clinic'");
    file.close();
    expect(await move(clinic.file, other)).toMatchObject({ kind: 'refused', why: expect.stringMatching(/beginning of another move/) });
  });

  it('says which row differs, and stays closed, when one side was written meanwhile', async () => {
    const copy = path.join(folder, 'written-meanwhile.db');
    fs.copyFileSync(path.join(folder, 'back.db'), copy);
    const file = new BetterSqlite(copy);
    file.exec("create table unfinished_move (id integer); update visit set day = '2001-01-01'");
    file.close();
    const moved = await move(clinic.file, copy);
    expect(moved).toMatchObject({ kind: 'refused', why: expect.stringMatching(/^Row \S+ of visit is not the same on both sides\./) });
    expect(command('start/check-database', [], { DATABASE_URL: '', DB_FILE: copy })).toMatch(/move that has not ended/);
  });

  function command(name: string, given: readonly string[], env: Record<string, string> = {}): string {
    const ended = spawnSync(process.execPath, ['--import', 'tsx', `app/_commands/${name}.ts`, ...given], {
      cwd: ROOT,
      env: { ...process.env, ...env },
      encoding: 'utf8',
    });
    return ended.stdout + ended.stderr;
  }

  function killedWhileItSays(words: string, given: readonly string[]): Promise<void> {
    const child = spawn(process.execPath, ['--import', 'tsx', 'app/_commands/move.ts', ...given], { cwd: ROOT });
    let said = '';
    child.stdout.on('data', (text) => {
      said += text;
      if (said.includes(words)) child.kill('SIGKILL');
    });
    return new Promise((resolve, reject) =>
      child.once('exit', (_code, signal) => (signal === 'SIGKILL' ? resolve() : reject(new Error(`it ended by itself: ${said}`)))),
    );
  }
});

/** Every table of a file as SQLite itself lists them, every column, in the order of keys; keys of JSON in order. */
function everything(file: string): Record<string, readonly string[]> {
  const database = new BetterSqlite(file, { readonly: true });
  const names = database
    .prepare("select name from sqlite_master where type = 'table' and name not like '\\_\\_drizzle%' escape '\\'")
    .pluck()
    .all();
  const tables = names.map((name): [string, readonly string[]] => {
    const rows = database.prepare(`select * from "${name}"`).all() as Record<string, unknown>[];
    return [String(name), rows.map((row) => JSON.stringify(inOrder(row))).sort()];
  });
  database.close();
  return Object.fromEntries(tables);
}

function inOrder(value: unknown): unknown {
  if (typeof value === 'string' && /^[[{]/.test(value)) return inOrder(JSON.parse(value));
  if (Array.isArray(value)) return value.map(inOrder);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, one]) => [key, inOrder(one)]),
  );
}
