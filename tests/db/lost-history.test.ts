import fs from 'node:fs';
import path from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ClinicOn, clinicOn } from './clinic-on';
import { details, visitOn } from './made-up-records';

describe('a history that was shortened behind the program’s back', () => {
  let at: ClinicOn;
  let folder: string;
  let early: string;
  let patientId: string;

  beforeAll(async () => {
    at = await clinicOn('sqlite');
    folder = path.join(path.dirname(at.file), 'backups');
    early = `${at.file}.early`;
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: 'p', details: details('HL-1') });
    patientId = 'patientId' in added ? added.patientId : '';
  });
  afterAll(async () => at?.close());

  const database = () => at.db.client.getDatabase();
  const heads = async () => (await import('@/db/audit/audit-head')).writeWaitingHeads();
  const doubts = async () => (await import('@/db/upkeep/known-heads')).historyDoubts(await database(), at.file);

  async function backup() {
    const { backupSqlite } = await import('@/db/upkeep/backup-sqlite');
    const { knownHeads } = await import('@/db/upkeep/known-heads');
    return backupSqlite(await database(), 'clinic', folder, new Date(), knownHeads(at.file));
  }

  it('is no doubt while nothing is lost', async () => {
    await ((await database()) as unknown as { $client: BetterSqlite.Database }).$client.backup(early);
    for (const one of [1, 2, 3, 4])
      await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: `v${one}`, visit: visitOn('2026-10-14') });
    await heads();
    expect(await doubts()).toEqual([]);
    expect(await backup()).toMatchObject({ kind: 'made', manifest: { sequence: 1 } });
  });

  it('a head that is empty or gone is said', async () => {
    const file = `${at.file}.audit-head`;
    const kept = fs.readFileSync(file);
    fs.writeFileSync(file, '{}');
    expect((await doubts()).join(' ')).toContain('.audit-head is missing or names no row of this history');
    fs.rmSync(file);
    expect((await doubts()).join(' ')).toContain('.audit-head is missing or names no row of this history');
    fs.writeFileSync(file, kept);
    expect(await doubts()).toEqual([]);
  });

  it('is said with the rows that are lost, and no backup of it is kept', async () => {
    await at.db.client.closeDatabase();
    for (const end of ['', '-wal', '-shm']) fs.rmSync(at.file + end, { force: true });
    fs.copyFileSync(early, at.file);
    const found = await doubts();
    expect(found).toHaveLength(2);
    expect(found.join(' ')).toMatch(/ends with row 3, but the head beside the file names row 7\. What was done last is lost\./);
    const before = fs.readdirSync(folder).sort();
    expect(await backup()).toMatchObject({ kind: 'refused' });
    expect(fs.readdirSync(folder).sort()).toEqual(before);
    const { historyState } = await import('@/db/upkeep/history-state');
    expect(await historyState()).toHaveLength(2);
  });

  it('a lead signs for it, and work goes on with backups', async () => {
    const { brokenHistory, mendHistory } = await import('@/db/upkeep/mend-history');
    const { knownHeads } = await import('@/db/upkeep/known-heads');
    await mendHistory(at.therapist, await brokenHistory(at.therapist, knownHeads(at.file)), 'the disk of Tuesday was lost');
    for (const one of [5, 6, 7, 8, 9])
      await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: `v${one}`, visit: visitOn('2026-10-14') });
    await heads();
    expect(await doubts()).toEqual([]);
    await new Promise((resolve) => setTimeout(resolve, 1100)); // a backup is named by its second
    expect(await backup()).toMatchObject({ kind: 'made', manifest: { sequence: 2 } });
  });
});
