import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { Client } from 'pg';
import { peakMegabytes } from '@/tests/bench/peak-memory';
import { quantile } from '@/tests/bench/timed';
import { isBuilt, signInAt, startBuilt } from '@/tests/built-server';
import { seeded } from '@/tests/cohort/random';
import { startPostgres } from '@/tests/postgres-server';
import { workThroughVisits } from './virtual-therapist';

const PATIENTS = 2000;
/** Everybody has come by then, in milliseconds: a clinic does not open a page all at once. */
const ARRIVAL_MS = 10_000;
/** Times that each kind of page is read before anything is counted. */
const WARM = 10;
/** How often somebody asks for an empty page meanwhile, in milliseconds. */
const PROBE_MS = 250;

/**
 * Therapists working through visits against one process of the built program: `npm run load [-- --therapists 50 --seconds 120
 * --engine postgres]`. Prints each step's times beside those of an empty page under the same load; ends with 1 when any answer was wrong.
 */
async function load(): Promise<number> {
  const given = { therapists: { type: 'string', default: '50' }, seconds: { type: 'string', default: '120' } } as const;
  const { values } = parseArgs({ options: { ...given, engine: { type: 'string', default: 'sqlite' } } });
  const [therapists, seconds] = [Number(values.therapists), Number(values.seconds)];
  if (!isBuilt()) throw new Error('No production build stands in .next; run `npx next build` first.');
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-load-'));
  const database = values.engine === 'postgres' ? await startPostgres({ durable: true }) : undefined;
  const secrets = { AUDIT_KEY: 'only for a load test, seals nothing real', AUTH_SECRET: 'only for a load test, signs nothing real' };
  const env = { ...secrets, DB_FILE: path.join(folder, 'clinic.db'), DATABASE_URL: database?.url ?? '' };
  Object.assign(process.env, env);
  const { preparedClinic } = await import('./prepared-clinic');
  const { emails, patientIds, ...visit } = await preparedClinic(therapists, PATIENTS);
  await (await import('@/db/client')).closeDatabase();
  const { PASSWORD } = await import('@/tests/bench/filled-clinic');
  const server = await startBuilt(env);
  const times = new Map<string, number[]>();
  const wrong: string[] = [];
  const tell = (step: string, milliseconds: number, why: string | undefined) => {
    times.set(step, [...(times.get(step) ?? []), milliseconds]);
    if (why) wrong.push(`${step}: ${why}`);
  };
  try {
    const cookies: string[] = [];
    for (const email of emails) cookies.push(await signInAt(server.address, email, PASSWORD));
    await warmUp(server.address, cookies[0] ?? '', patientIds[0] ?? '');
    const end = Date.now() + seconds * 1000;
    const goOn = () => Date.now() < end;
    const share = Math.floor(patientIds.length / therapists);
    const working = cookies.map(async (cookie, number) => {
      await new Promise((resolve) => setTimeout(resolve, (ARRIVAL_MS * number) / therapists));
      const own = patientIds.slice(number * share, (number + 1) * share);
      return workThroughVisits({ address: server.address, cookie }, own, visit, seeded(8800 + number), goOn, tell);
    });
    await Promise.all([...working, probe(server.address, cookies[0] ?? '', goOn, tell)]);
    report(times, seconds, therapists);
    console.log(`The server held ${peakMegabytes(server.pid)} MB at most. Wrong answers: ${wrong.length}.`);
    if (database) console.log(`Deadlocks that the server dissolved: ${await deadlocksAt(database.url)}.`);
    for (const one of wrong.slice(0, 10)) console.log(`  ${one}`);
  } finally {
    await server.end('SIGTERM');
    await database?.stop();
    fs.rmSync(folder, { recursive: true });
  }
  return wrong.length === 0 ? 0 : 1;
}

async function warmUp(address: string, cookie: string, patientId: string): Promise<void> {
  for (let turn = 0; turn < WARM; turn++) {
    for (const page of ['/', '/not-allowed', `/patients/${patientId}`, `/patients/${patientId}/visits/new`])
      await (await fetch(address + page, { headers: { cookie } })).text();
  }
}

/** Each makes its two writers wait for a second, and one of them try again. */
async function deadlocksAt(url: string): Promise<number> {
  const client = new Client({ connectionString: url });
  await client.connect();
  const { rows } = await client.query('select deadlocks::int from pg_stat_database where datname = current_database()');
  await client.end();
  return rows[0].deadlocks;
}

async function probe(
  address: string,
  cookie: string,
  goOn: () => boolean,
  tell: (step: string, milliseconds: number, why: string | undefined) => void,
): Promise<void> {
  while (goOn()) {
    await new Promise((resolve) => setTimeout(resolve, PROBE_MS));
    const start = performance.now();
    const answer = await fetch(`${address}/not-allowed`, { headers: { cookie } });
    await answer.text();
    tell('empty page', performance.now() - start, answer.ok ? undefined : String(answer.status));
  }
}

function report(times: ReadonlyMap<string, readonly number[]>, seconds: number, therapists: number): void {
  const all = [...times.values()].reduce((sum, one) => sum + one.length, 0);
  console.log(`${therapists} therapists, ${seconds} s, ${all} requests, ${times.get('save')?.length ?? 0} visits saved`);
  console.log('step'.padEnd(12), ...['requests', 'p50 ms', 'p95 ms', 'p99 ms'].map((head) => head.padStart(9)));
  for (const [step, one] of times) {
    const figures = [0.5, 0.95, 0.99].map((share) => quantile(one, share).toFixed(0));
    console.log(step.padEnd(12), ...[String(one.length), ...figures].map((figure) => figure.padStart(9)));
  }
}

process.exitCode = await load();
