import fs from 'node:fs';
import path from 'node:path';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import type { Database } from '@/db/sql/database';
import type { Random } from '@/tests/cohort/random';
import type { MadeUpClinic } from '@/tests/db/made-up-clinic';
import { fillEveryTable } from './altered-values';

/** Flips of one bit of the file: how many changed a value that is sealed, how many of those were seen, and where the others lie. */
export type Flipped = { readonly tried: number; readonly changed: number; readonly seen: number; readonly missed: readonly string[] };

/**
 * Flips single bits of the closed file at random, each in a copy, and asks whether the check of the data sees it.
 *
 * Whether a flip changed anything is decided without the program: every sealed value is read as bytes by SQLite itself and compared
 * with the same of the untouched file. A flip in free space, an index or a counter may change none.
 */
export async function flipBits(at: MadeUpClinic, times: number, random: Random): Promise<Flipped> {
  await fillEveryTable(at);
  const { checkData, checkHistory } = await import('@/db/upkeep/check-data');
  const { openSqlite } = await import('@/db/open-sqlite');
  const { CONTENT_TABLES } = await import('@/db/audit/content-tables');
  const { toSnakeCase } = await import('drizzle-orm/casing');
  const { heads } = await checkHistory(await at.db.client.getDatabase(), []);
  const queries = [...CONTENT_TABLES.values()].map(({ name, columns }) => {
    const bytes = columns.map((column) => `typeof("${toSnakeCase(column)}") || hex(cast("${toSnakeCase(column)}" as blob))`);
    return `select '${name}', ${bytes.join(', ')} from "${name}" not indexed order by id`;
  });
  const original = wholeFile(at.file);
  const copy = path.join(path.dirname(at.file), 'flipped.db');
  const write = (bytes: Buffer) => {
    for (const end of ['', '-wal', '-shm']) fs.rmSync(copy + end, { force: true });
    fs.writeFileSync(copy, bytes);
  };
  write(original);
  const before = sealedValues(copy, queries);
  const tally = { changed: 0, seen: 0 };
  const missed: string[] = [];
  for (let time = 0; time < times; time++) {
    const bit = Math.floor(random.uniform() * original.length * 8);
    const bytes = Buffer.from(original);
    bytes.writeUInt8(bytes.readUInt8(bit >> 3) ^ (1 << (bit & 7)), bit >> 3);
    write(bytes);
    if (sealedValues(copy, queries) === before) continue;
    tally.changed += 1;
    write(bytes);
    if (await isSeen()) tally.seen += 1;
    else missed.push(`bit ${bit}`);
  }
  return { tried: times, ...tally, missed };

  async function isSeen(): Promise<boolean> {
    try {
      const { database, close } = await openSqlite(copy);
      try {
        const { findings } = await checkData(database as unknown as Database, [{ where: 'kept elsewhere', heads }]);
        return findings.some(({ problems }) => problems.length > 0);
      } finally {
        await close();
      }
    } catch {
      return true;
    }
  }
}

function wholeFile(file: string): Buffer {
  const handle = new BetterSqlite(file);
  handle.pragma('wal_checkpoint(TRUNCATE)');
  handle.close();
  return fs.readFileSync(file);
}

function sealedValues(file: string, queries: readonly string[]): string {
  try {
    const handle = new BetterSqlite(file);
    try {
      return JSON.stringify(queries.map((query) => handle.prepare(query).raw().all()));
    } finally {
      handle.close();
    }
  } catch (error) {
    return `cannot be read: ${error}`;
  }
}
