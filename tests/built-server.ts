import { spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { createServer } from 'node:net';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const ROOT = path.resolve(import.meta.dirname, '..');
const NEXT = path.join(ROOT, 'node_modules/next/dist/bin/next');
const GUARD = pathToFileURL(path.join(ROOT, 'app/_server/guard-requests.mjs')).href;

/** A process that serves the build in `.next`. `pid` is its own, for reading what it uses. */
export type BuiltServer = { readonly address: string; readonly pid: number; readonly end: (signal: NodeJS.Signals) => Promise<void> };

/** Starts the built program on a port of this machine, a free one unless it is named, and waits until it can use its database. */
export async function startBuilt(env: Readonly<Record<string, string>>, named?: number): Promise<BuiltServer> {
  const port = named ?? (await freePort());
  const given = ['--import', GUARD, NEXT, 'start', '-H', '127.0.0.1', '-p', String(port)];
  const server = spawn(process.execPath, given, {
    cwd: ROOT,
    env: { ...process.env, ...env, NEXT_TELEMETRY_DISABLED: '1' },
    stdio: 'ignore',
  });
  const ended = new Promise<void>((resolve) => server.once('exit', () => resolve()));
  const end = async (signal: NodeJS.Signals) => {
    server.kill(signal);
    await ended;
  };
  const address = `http://127.0.0.1:${port}`;
  for (let tries = 0; tries < 200; tries++) {
    const answer = await fetch(`${address}/api/health`).catch(() => undefined);
    if (answer?.ok) return { address, pid: server.pid ?? 0, end };
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  await end('SIGKILL');
  throw new Error('the server did not start');
}

/** True when a production build stands in `.next`. */
export function isBuilt(): boolean {
  return fs.existsSync(path.join(ROOT, '.next/BUILD_ID'));
}

/** Signs somebody in and gives the cookie to send from then on. */
export async function signInAt(address: string, email: string, password: string): Promise<string> {
  const answer = await fetch(`${address}/api/auth/sign-in/email`, {
    method: 'POST',
    headers: { origin: address, 'content-type': 'application/json' },
    body: JSON.stringify({ email, password }),
  });
  if (!answer.ok) throw new Error(`not signed in: ${answer.status} ${await answer.text()}`);
  return answer.headers
    .getSetCookie()
    .map((one) => one.split(';')[0])
    .join('; ');
}

type Manifest = { readonly node: Readonly<Record<string, { readonly filename: string; readonly exportedName: string }>> };

/** The id under which the build answers to a server action. */
export function actionId(from: string, name: string): string {
  const manifest = JSON.parse(fs.readFileSync(path.join(ROOT, '.next/server/server-reference-manifest.json'), 'utf8')) as Manifest;
  const found = Object.entries(manifest.node).find(([, action]) => action.filename === from && action.exportedName === name);
  if (!found) throw new Error(`the build has no action ${name}`);
  return found[0];
}

/** The headers with which the browser calls a server action. */
export function actionHeaders(address: string, cookie: string, action: string): Record<string, string> {
  return { cookie, origin: address, 'next-action': action, accept: 'text/x-component', 'content-type': 'text/plain;charset=UTF-8' };
}

/** Runs a script of this project in a process of its own and gives what it says. */
export function runScript(name: string, env: Readonly<Record<string, string>>, input = ''): string {
  const ended = spawnSync(process.execPath, ['-C', 'react-server', '--import', 'tsx', name], {
    cwd: ROOT,
    env: { ...process.env, ...env },
    input,
    encoding: 'utf8',
  });
  if (ended.status !== 0) throw new Error(ended.stderr);
  return ended.stdout;
}

/** A port of this machine that nobody listens on. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const found = probe.address();
      probe.close(() => (found && typeof found === 'object' ? resolve(found.port) : reject(new Error('no free port'))));
    });
  });
}
