import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type ClinicOn, clinicOn } from './clinic-on';

let before: number;
let at: ClinicOn;

beforeAll(async () => {
  before = process.umask(0);
  at = await clinicOn('sqlite');
});
afterAll(async () => {
  process.umask(before);
  await at?.close();
});

it('database, log, index, heads, key and backups are for their owner only, whatever the umask', async () => {
  (await import('@/db/audit/audit-head')).writeWaitingHeads();
  const folder = path.join(path.dirname(at.file), 'backups');
  const { backupSqlite } = await import('@/db/upkeep/backup-sqlite');
  expect(await backupSqlite(await at.db.client.getDatabase(), 'clinic', folder, new Date())).toMatchObject({ kind: 'made' });
  const modes = [path.dirname(at.file), folder].flatMap((one) =>
    fs.readdirSync(one, { withFileTypes: true }).map((entry) => {
      const mode = fs.statSync(path.join(one, entry.name)).mode & 0o777;
      return [entry.name, mode.toString(8), entry.isDirectory()] as const;
    }),
  );
  expect(modes.length).toBeGreaterThanOrEqual(7);
  expect(modes.filter(([, mode, isFolder]) => mode !== (isFolder ? '700' : '600'))).toEqual([]);
});

it('a file that others could read is taken from them when it is opened', async () => {
  await at.db.client.closeDatabase();
  fs.chmodSync(at.file, 0o644);
  await at.db.client.getDatabase();
  expect(fs.statSync(at.file).mode & 0o777).toBe(0o600);
});
