import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { startPostgres } from '@/tests/postgres-server';
import { sayMissed } from './aims';
import type { ClinicSize } from './clinic-sizes';
import { peakMegabytes } from './peak-memory';

/**
 * The bench of one clinic on one engine, in a process of its own because `db` picks its engine when it is loaded:
 * `tsx tests/bench/clinic.ts --engine sqlite --size '{…}'`; with `--only save,pages` those parts alone (save, search, renewal, exchange, pages,
 * search-sizes: on clinics of its own, and only when it is named).
 */
async function run(): Promise<void> {
  const { values } = parseArgs({ options: { engine: { type: 'string' }, size: { type: 'string' }, only: { type: 'string' } } });
  const size = JSON.parse(values.size ?? '') as ClinicSize;
  const only = values.only?.split(',');
  const wants = (part: string) => only?.includes(part) ?? true;
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-bench-'));
  const server = values.engine === 'postgres' ? await startPostgres({ durable: true }) : undefined;
  process.env.AUDIT_KEY = 'only for a bench, seals nothing real';
  process.env.DB_FILE = path.join(folder, 'clinic.db');
  if (server) process.env.DATABASE_URL = server.url;
  else delete process.env.DATABASE_URL;
  try {
    const { filledClinic } = await import('./filled-clinic');
    const clinic = await filledClinic(size.patients, size.visits);
    const bare = await (await import('./bare-statements')).bareStatements();
    if (server) await bare.rows('analyze');
    if (wants('save')) await (await import('./save')).benchSave(clinic, bare, size.saves);
    if (wants('search')) await (await import('./search')).benchSearch(clinic, bare);
    if (size.renewed > 0 && wants('renewal')) await (await import('./renewal')).benchRenewal(clinic, bare, size.renewed);
    if (size.ladderRows > 0 && wants('exchange')) await (await import('./exchange')).benchExchange(clinic, size.ladderRows);
    if (wants('pages')) {
      // Not to the patients whose own pages are measured.
      const others = { ...clinic, patientIds: clinic.patientIds.slice(size.pageTimes) };
      console.log(`  ${await (await import('./service-rows')).addServiceRows(others)} pieces with their fittings for the service figures`);
    }
    if (only?.includes('search-sizes')) await (await import('./search-sizes')).benchSearchSizes(bare);
    await bare.close();
    await (await import('@/db/client')).closeDatabase();
    console.log(`  this process held ${peakMegabytes(process.pid)} MB at most`);
    if (wants('pages')) await (await import('./pages')).benchPages(clinic, size.pageTimes);
  } finally {
    await server?.stop();
    fs.rmSync(folder, { recursive: true });
  }
}

await run();
sayMissed();
