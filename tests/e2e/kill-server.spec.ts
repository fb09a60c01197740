import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { createServer } from 'node:net';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { seeded } from '../cohort/random';
import { PASSWORD, PEOPLE } from './people';

/** How often the server is killed; the campaign asks for more. */
const KILLS = Number(process.env.SERVER_KILLS ?? 30);

const root = path.resolve(import.meta.dirname, '../..');
const file = path.join(root, 'test-results/browser/killed/clinic.db');
const env = {
  ...process.env,
  DATABASE_URL: '',
  DB_FILE: file,
  AUTH_SECRET: 'only for browser tests, signs nothing real',
  NEXT_TELEMETRY_DISABLED: '1',
};

type Seeded = { readonly patientIds: readonly string[]; readonly form: unknown; readonly leftOpen: readonly string[] };

/** The built server, killed without warning at random moments while two writers save visits through it, as the sheet does. */
test('the real server killed while visits are saved: nothing acknowledged is lost, nothing is there by half', async () => {
  test.setTimeout(60_000 + KILLS * 10_000);
  fs.rmSync(path.dirname(file), { recursive: true, force: true });
  const { patientIds, form, leftOpen } = JSON.parse(script('tests/faults/seed-a-few-patients.ts')) as Seeded;
  const address = `http://127.0.0.1:${await freePort()}`;
  const random = seeded(9301);
  const acknowledged: string[] = [];
  let server = await start(address);
  const cookie = await signIn(address);
  const saving = actionId('app/patients/[patientId]/visits/new/actions.ts', 'finishVisit');

  /** Sends one visit as the sheet's button does; true once the server has answered that it is saved. */
  async function save(patientId: string): Promise<boolean> {
    const submissionId = crypto.randomUUID();
    const headers = {
      cookie,
      origin: address,
      'next-action': saving,
      accept: 'text/x-component',
      'content-type': 'text/plain;charset=UTF-8',
    };
    const body = JSON.stringify([patientId, submissionId, form, leftOpen]);
    try {
      const answer = await fetch(`${address}/patients/${patientId}/visits/new`, { method: 'POST', headers, body, redirect: 'manual' });
      if (!/\/visits\/[0-9a-f-]{36}/.test(answer.headers.get('x-action-redirect') ?? ''))
        throw new Error(`${answer.status}: ${await answer.text()}`);
      acknowledged.push(submissionId);
      await answer.body?.cancel();
      return true;
    } catch (error) {
      if (error instanceof TypeError) return false; // the server is gone
      throw error;
    }
  }

  for (let kill = 0; kill < KILLS; kill++) {
    const writers = [0, 1].map(async (writer) => {
      while (await save(patientIds[(2 * kill + writer) % patientIds.length] ?? '')) {}
    });
    const before = acknowledged.length;
    await expect.poll(() => acknowledged.length, { timeout: 10_000, intervals: [5] }).toBeGreaterThan(before);
    await new Promise((resolve) => setTimeout(resolve, random.uniform() * 150));
    await end(server);
    await Promise.all(writers);
    server = await start(address);
  }
  await end(server);
  const left = JSON.parse(script('tests/faults/print-what-is-left.ts', JSON.stringify(acknowledged)));
  console.log(`${KILLS} kills, ${acknowledged.length} visits acknowledged, ${left.lost} lost, ${left.half} there by half`);
  expect(left).toEqual({ lost: 0, half: 0, problems: [] });
  expect(acknowledged.length).toBeGreaterThanOrEqual(KILLS);
});

function script(name: string, input = ''): string {
  const ended = spawnSync(process.execPath, ['-C', 'react-server', '--import', 'tsx', name], { cwd: root, env, input, encoding: 'utf8' });
  if (ended.status !== 0) throw new Error(ended.stderr);
  return ended.stdout;
}

async function start(address: string): Promise<ChildProcess> {
  const next = path.join(root, 'node_modules/next/dist/bin/next');
  const server = spawn(process.execPath, [next, 'start', '-H', '127.0.0.1', '-p', new URL(address).port], {
    cwd: root,
    env,
    stdio: 'ignore',
  });
  const answers = () =>
    fetch(`${address}/api/health`).then(
      (answer) => answer.ok,
      () => false,
    );
  await expect.poll(answers, { timeout: 20_000, intervals: [50] }).toBe(true);
  return server;
}

function end(server: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    server.once('exit', () => resolve());
    server.kill('SIGKILL');
  });
}

async function signIn(address: string): Promise<string> {
  const body = JSON.stringify({ email: PEOPLE.lead.email, password: PASSWORD });
  const answer = await fetch(`${address}/api/auth/sign-in/email`, {
    method: 'POST',
    headers: { origin: address, 'content-type': 'application/json' },
    body,
  });
  if (!answer.ok) throw new Error(`not signed in: ${answer.status} ${await answer.text()}`);
  return answer.headers
    .getSetCookie()
    .map((one) => one.split(';')[0])
    .join('; ');
}

/** The id under which the build answers to a server action. */
function actionId(from: string, name: string): string {
  const manifest = JSON.parse(fs.readFileSync(path.join(root, '.next/server/server-reference-manifest.json'), 'utf8')) as Manifest;
  const found = Object.entries(manifest.node).find(([, action]) => action.filename === from && action.exportedName === name);
  if (!found) throw new Error(`the build has no action ${name}`);
  return found[0];
}

type Manifest = { readonly node: Readonly<Record<string, { readonly filename: string; readonly exportedName: string }>> };

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.listen(0, '127.0.0.1', () => {
      const found = probe.address();
      probe.close(() => resolve(found && typeof found === 'object' ? found.port : 0));
    });
  });
}
