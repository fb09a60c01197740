import { execFile } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { type BuiltServer, startBuilt } from '../built-server';

const ROOT = path.resolve(import.meta.dirname, '../..');
const FOLDER = path.join(ROOT, 'test-results/limits');
const LEAD = 'lead@quay.example';
const SECRET = 'only for browser tests, signs nothing real';
const ENV = {
  DATABASE_URL: '',
  DB_FILE: path.join(FOLDER, 'clinic.db'),
  AUTH_SECRET: SECRET,
};

let server: BuiltServer | undefined;
let address = '';

/** Serves the clinic of this file with more of the environment set. */
async function serve(more: Record<string, string>): Promise<void> {
  await stop();
  server = await startBuilt({ ...ENV, ...more });
  address = server.address;
}

async function stop(): Promise<void> {
  await server?.end('SIGKILL');
  server = undefined;
}

/** Beside, not instead of, everything else: blocked for as long as a command takes, this process would not see that the server closed an idle connection. */
function command(file: string, ...words: string[]): Promise<string> {
  const given = ['--import', 'tsx', `app/_commands/${file}`, ...words];
  return new Promise((resolve) => {
    execFile(process.execPath, given, { cwd: ROOT, env: { ...process.env, ...ENV }, encoding: 'utf8' }, (_failed, said, refused) =>
      resolve(said + refused),
    );
  });
}

function tryToSignIn(email: string, password: string, headers: Record<string, string> = {}): Promise<Response> {
  const sent = { 'content-type': 'application/json', 'sec-fetch-site': 'same-origin', ...headers };
  return fetch(`${address}/api/auth/sign-in/email`, { method: 'POST', headers: sent, body: JSON.stringify({ email, password }) });
}

test.beforeAll(() => {
  fs.rmSync(FOLDER, { recursive: true, force: true });
  fs.mkdirSync(FOLDER, { recursive: true });
});
test.afterAll(stop);

test('the first therapist comes from a command, a lost password too; no made-up address gives a fresh count of tries', async () => {
  test.setTimeout(60_000);
  const added = await command('add-therapist.ts', '--email', LEAD, '--name', 'A. Brook', '--clinic', 'Quay', '--zone', 'Europe/London');
  const passphrase = /Password {2}(\S+)/.exec(added)?.[1] ?? '';
  expect(await command('reset-password.ts', '--email', 'nobody@quay.example')).toContain('Nobody who may sign in has the e-mail');
  await serve({});
  expect((await tryToSignIn(LEAD, passphrase)).status).toBe(200);
  const link = (await command('reset-password.ts', '--email', LEAD, '--address', address)).split('\n')[0] ?? '';
  expect(await (await fetch(link)).text()).toContain('Choose a new password');
  expect(await (await fetch(`${address}/join/${'x'.repeat(43)}`)).text()).toContain('This link opens nothing');
  const statuses: number[] = [];
  for (let tries = 2; tries <= 31; tries += 1) {
    const made = { 'x-forwarded-for': `10.0.0.${tries}`, 'x-real-ip': `10.1.0.${tries}`, forwarded: `for=10.2.0.${tries}` };
    statuses.push((await tryToSignIn(`guess${tries}@quay.example`, 'x', made)).status);
  }
  expect(statuses).toEqual([...Array(29).fill(401), 429]);
  expect(await (await fetch(link, { headers: { 'x-forwarded-for': '10.3.0.1' } })).text()).toContain('Too many tries from here');
});

test('behind a proxy that is named, its own word counts; cookies are Secure and carry the prefix', async () => {
  test.setTimeout(150_000);
  await serve({ APP_URL: 'https://quay.example', TRUSTED_PROXY_HEADER: 'x-real-ip' });
  const passphrase =
    /Password {2}(\S+)/.exec(await command('add-therapist.ts', '--email', 'two@quay.example', '--name', 'C. Reed'))?.[1] ?? '';
  const statuses: number[] = [];
  for (let tries = 1; tries <= 31; tries += 1) {
    const sent = { 'x-real-ip': '192.0.2.1', 'x-forwarded-for': `10.0.0.${tries}` };
    statuses.push((await tryToSignIn(`other${tries}@quay.example`, 'x', sent)).status);
  }
  expect(statuses).toEqual([...Array(30).fill(401), 429]);
  const answer = await tryToSignIn('two@quay.example', passphrase, { 'x-real-ip': '192.0.2.2', origin: 'https://quay.example' });
  expect(answer.status).toBe(200);
  const cookies = answer.headers.getSetCookie();
  expect(cookies).not.toEqual([]);
  for (const cookie of cookies) {
    expect(cookie).toMatch(/^__Secure-/);
    for (const mark of [/; HttpOnly/i, /; Secure/i, /; SameSite=Lax/i]) expect(cookie).toMatch(mark);
  }
});
