import { type ChildProcess, spawn } from 'node:child_process';
import fs from 'node:fs';
import { createServer } from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { hashPassword } from 'better-auth/crypto';
import { todayIn } from '@/app/_session/today';
import { bulkClinic } from '@/tests/bulk-clinic';

const ROOT = path.resolve(import.meta.dirname, '../..');
const CLINIC = { name: 'Harbour Lane', subtitle: 'garment clinic', lengthUnit: 'cm', massUnit: 'kg', timeZone: 'UTC' } as const;
const LEAD = { name: 'R. Adeyemi', role: 'lead', email: 'bench@harbour.example' } as const;
const PASSWORD = 'taped twice on a tuesday';
const WARM = 30;
const TIMED = 150;

/** A signed-in page that reads the session and the clinic and shows a sentence: what any page of this server costs. */
const EMPTY = '/not-allowed';
const PAGES = [
  ['first page', '/'],
  ['orders only', '/?kind=order'],
] as const;

/**
 * The worklist of clinics of these sizes, read from a built server, against an empty page of the same server: medians, one by one in turn.
 *
 * Needs a production build in `.next`; without one it says so. On SQLite; the patients are stored lines, not analysed.
 */
export async function benchWorklist(sizes: readonly number[]): Promise<void> {
  if (!fs.existsSync(path.join(ROOT, '.next/BUILD_ID'))) {
    console.log('Worklist: no production build stands in .next; run `npx next build` first.');
    return;
  }
  for (const size of sizes) {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-bench-'));
    const file = path.join(folder, 'clinic.db');
    await fill(file, size);
    const { address, server } = await serve(file);
    try {
      const cookie = await signIn(address);
      for (const [what, page] of PAGES) await compare(address, cookie, what, page, size);
    } finally {
      server.kill('SIGTERM');
      fs.rmSync(folder, { recursive: true });
    }
  }
}

async function fill(file: string, patients: number): Promise<void> {
  delete process.env.DATABASE_URL;
  process.env.DB_FILE = file;
  const { closeDatabase } = await import('@/db/client');
  const { openClinic } = await import('@/db/people');
  const { therapistWithId } = await import('@/db/therapist');
  const opened = await openClinic(CLINIC, { ...LEAD, passwordHash: await hashPassword(PASSWORD) });
  const lead = await therapistWithId('id' in opened ? opened.id : '');
  if (!lead) throw new Error('no lead was added');
  await bulkClinic(lead, patients, todayIn(CLINIC.timeZone));
  await closeDatabase();
}

async function compare(address: string, cookie: string, what: string, page: string, size: number): Promise<void> {
  const empty: number[] = [];
  const whole: number[] = [];
  for (let turn = 0; turn < WARM + TIMED; turn++) {
    const floor = await timedGet(address + EMPTY, cookie);
    const seen = await timedGet(address + page, cookie);
    if (turn < WARM) continue;
    empty.push(floor);
    whole.push(seen);
  }
  const ratio = (median(whole) / median(empty)).toFixed(2);
  console.log(
    `Worklist, ${what} (${size} patients): ${median(whole).toFixed(1)} ms against ${median(empty).toFixed(1)} ms for an empty page of the same server: ${ratio} times`,
  );
}

async function timedGet(url: string, cookie: string): Promise<number> {
  const start = process.hrtime.bigint();
  const answer = await fetch(url, { headers: { cookie }, redirect: 'manual' });
  await answer.text();
  if (answer.status !== 200) throw new Error(`${url} answered ${answer.status}`);
  return Number(process.hrtime.bigint() - start) / 1e6;
}

function median(times: readonly number[]): number {
  const sorted = [...times].sort((one, other) => one - other);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

async function signIn(address: string): Promise<string> {
  const answer = await fetch(`${address}/api/auth/sign-in/email`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: address },
    body: JSON.stringify({ email: LEAD.email, password: PASSWORD }),
  });
  if (!answer.ok) throw new Error(`signing in answered ${answer.status}`);
  return answer.headers
    .getSetCookie()
    .map((one) => one.split(';')[0])
    .join('; ');
}

async function serve(file: string): Promise<{ address: string; server: ChildProcess }> {
  const port = await freePort();
  const env = {
    ...process.env,
    DATABASE_URL: '',
    DB_FILE: file,
    AUTH_SECRET: 'only for a bench, signs nothing real',
  };
  const program = path.join(ROOT, 'node_modules/next/dist/bin/next');
  const server = spawn(process.execPath, [program, 'start', '-H', '127.0.0.1', '-p', String(port)], { cwd: ROOT, env, stdio: 'ignore' });
  const address = `http://127.0.0.1:${port}`;
  for (let tries = 0; tries < 100; tries++) {
    const ready = await fetch(`${address}/api/health`).catch(() => undefined);
    if (ready?.ok) return { address, server };
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  server.kill('SIGTERM');
  throw new Error('the server did not start');
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const found = probe.address();
      probe.close(() => (found && typeof found === 'object' ? resolve(found.port) : reject(new Error('no free port'))));
    });
  });
}
