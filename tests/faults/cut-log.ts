import fs from 'node:fs';
import path from 'node:path';
import type Sqlite from 'better-sqlite3';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import type { Random } from '@/tests/cohort/random';
import type { MadeUpClinic } from '@/tests/db/made-up-clinic';
import { details, visitOn } from '@/tests/db/made-up-records';
import { PARTS, WHOLE } from './whole-visits';

/** What was found in files whose log was cut or scribbled over. */
export type Cut = {
  readonly tried: number;
  readonly corrupt: number;
  /** Visits without all their ladders, their head or their deed. */
  readonly torn: number;
  /** Visits that were saved before the place of the cut and are not there. */
  readonly lost: number;
  /** Visits after the cut, which a power loss may take. */
  readonly taken: number;
};

/**
 * Power loss as SQLite's own tests model it: the write-ahead log ends anywhere, half of the time in noise.
 *
 * Visits are saved by our own module while the log is never written back; after each the length of the log is noted, and by the flush
 * of `synchronous=FULL` all of it is on the disk. Source: SQLite, "How SQLite Is Tested", crash testing.
 */
export async function cutLog(at: MadeUpClinic, saves: number, times: number, random: Random): Promise<Cut> {
  const { db, therapist } = at;
  const added = await db.patients.addPatient(therapist, { submissionId: crypto.randomUUID(), details: details('HL-0001') });
  const patientId = 'patientId' in added ? added.patientId : '';
  const open = ((await db.client.getDatabase()) as unknown as { $client: Sqlite.Database }).$client;
  open.pragma('wal_checkpoint(TRUNCATE)');
  open.pragma('wal_autocheckpoint = 0');
  const log = `${at.file}-wal`;
  const start = fs.statSync(log).size;
  const saved: { submissionId: string; end: number }[] = [];
  for (let number = 0; number < saves; number++) {
    const submissionId = crypto.randomUUID();
    const ended = await db.visits.saveVisit(therapist, { patientId, submissionId, visit: visitOn('2026-10-14') });
    if (ended.kind === 'saved') saved.push({ submissionId, end: fs.statSync(log).size });
  }
  const full = fs.readFileSync(log);
  const copy = path.join(path.dirname(at.file), 'cut.db');
  const tally = { corrupt: 0, torn: 0, lost: 0, taken: 0 };
  for (let time = 0; time < times; time++) {
    const place = start + Math.floor(random.uniform() * (full.length - start));
    fs.copyFileSync(at.file, copy);
    fs.writeFileSync(`${copy}-wal`, time % 2 === 0 ? full.subarray(0, place) : scribbled(full, place, random));
    fs.rmSync(`${copy}-shm`, { force: true });
    const after = new BetterSqlite(copy);
    if (after.pragma('integrity_check', { simple: true }) !== 'ok') tally.corrupt += 1;
    const whole = new Set(after.prepare(WHOLE).pluck().all());
    const { visits, homeless } = after.prepare(PARTS).get() as { visits: number; homeless: number };
    tally.torn += visits - whole.size + homeless;
    tally.lost += saved.filter((one) => one.end <= place && !whole.has(one.submissionId)).length;
    tally.taken += saved.filter((one) => one.end > place && !whole.has(one.submissionId)).length;
    after.close();
  }
  return { tried: times, ...tally };
}

/** The log with noise of up to four kilobytes from a place on: cut there, or with the old rest behind it. */
function scribbled(log: Buffer, place: number, random: Random): Buffer {
  const noise = Buffer.from(Array.from({ length: 1 + Math.floor(random.uniform() * 4096) }, () => Math.floor(random.uniform() * 256)));
  const rest = random.uniform() < 0.5 ? Buffer.alloc(0) : log.subarray(Math.min(log.length, place + noise.length));
  return Buffer.concat([log.subarray(0, place), noise, rest]);
}
