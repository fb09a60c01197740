import { type ChildProcess, spawn } from 'node:child_process';
import path from 'node:path';
import { build } from 'esbuild';
import type { Random } from '@/tests/cohort/random';
import type { MadeUpClinic } from '@/tests/db/made-up-clinic';
import { details } from '@/tests/db/made-up-records';
import { type Left, whatIsLeft } from './what-is-left';

/** What was left after so many processes were killed while they saved. */
export type Killed = Left & {
  readonly kills: number;
  readonly acknowledged: number;
};

/** How long a writer that was not killed is waited for, on a machine with much else to do. */
const GOES_ON_MS = 10_000;
const ROOT = path.resolve(import.meta.dirname, '../..');
const BUNDLE = path.join(ROOT, 'test-results/faults/writer.mjs');

/**
 * Kills processes that save visits through `db/patients/visits`, without warning, some milliseconds after each has acknowledged its first.
 *
 * `beside` writers are never killed until the end and must go on: on a server several processes share the records.
 */
export async function killWriters(at: MadeUpClinic, kills: number, random: Random, beside = 0): Promise<Killed> {
  const added = await at.db.patients.addPatient(at.therapist, { submissionId: crypto.randomUUID(), details: details('HL-0001') });
  const patientId = 'patientId' in added ? added.patientId : '';
  await bundleWriter();
  const ready = () => new Writer(at.therapist.id, patientId);
  const steady = Array.from({ length: beside }, ready);
  for (const one of steady) one.go();
  const waiting = [ready(), ready(), ready()];
  const gone: Writer[] = [];
  for (let kill = 0; kill < kills; kill++) {
    const writer = waiting.shift() ?? ready();
    if (kill + waiting.length + 1 < kills) waiting.push(ready());
    writer.go();
    await writer.firstAcknowledged;
    await new Promise((resolve) => setTimeout(resolve, random.uniform() * 25));
    await writer.kill();
    gone.push(writer);
  }
  const went = await Promise.all(
    steady.map(async (one) => {
      const before = one.acknowledged.length;
      const patience = Date.now() + GOES_ON_MS;
      while (one.acknowledged.length === before && Date.now() < patience) await new Promise((resolve) => setTimeout(resolve, 50));
      await one.kill();
      return one.acknowledged.length > before;
    }),
  );
  for (const one of waiting) await one.kill();
  const acknowledged = [...gone, ...steady].flatMap((one) => one.acknowledged);
  const left = await whatIsLeft(await at.db.client.getDatabase(), acknowledged);
  const stopped = went.filter((one) => !one).map(() => 'A writer that was not killed did not go on.');
  return { kills, acknowledged: acknowledged.length, ...left, problems: [...left.problems, ...stopped] };
}

/** One file with everything but the database's own binary: a writer is ready in a third of the time. */
async function bundleWriter(): Promise<void> {
  const banner = { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" };
  const shape = { bundle: true, platform: 'node', format: 'esm', banner } as const;
  const entry = path.join(import.meta.dirname, 'writer.ts');
  await build({
    ...shape,
    external: ['better-sqlite3', 'better-sqlite3-from-node-22', 'pg-native'],
    entryPoints: [entry],
    outfile: BUNDLE,
    alias: { '@': ROOT },
    logLevel: 'error',
  });
}

class Writer {
  readonly acknowledged: string[] = [];
  readonly firstAcknowledged: Promise<void>;
  private readonly process: ChildProcess;
  private said = '';

  constructor(therapistId: string, patientId: string) {
    this.process = spawn(process.execPath, [BUNDLE, therapistId, patientId], { cwd: ROOT, stdio: ['pipe', 'pipe', 'inherit'] });
    this.firstAcknowledged = new Promise((resolve, reject) => {
      this.process.once('exit', () => reject(new Error('a writer ended before its first save')));
      this.process.stdout?.on('data', (text: Buffer) => {
        this.said += text.toString();
        const lines = this.said.split('\n');
        this.said = lines.pop() ?? '';
        this.acknowledged.push(...lines);
        if (this.acknowledged.length > 0) resolve();
      });
    });
    this.firstAcknowledged.catch(() => {});
  }

  go(): void {
    this.process.stdin?.end('\n');
  }

  /** Ends it without warning; done when everything that it had said was read. */
  kill(): Promise<void> {
    return new Promise((resolve) => {
      this.process.once('close', () => resolve());
      this.process.kill('SIGKILL');
    });
  }
}
