import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import { createServer } from 'node:net';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { ROOT } from './prepare.mjs';

/** PORT, or the first free one from 3000 on. */
export async function choosePort(host) {
  if (process.env.PORT) return Number(process.env.PORT);
  for (let port = 3000; port < 3100; port += 1) {
    if (await isFree(port, host)) return port;
  }
  throw new Error('No port from 3000 to 3099 is free. Set PORT.');
}

/** The secret that signs sessions: AUTH_SECRET, else one made once and kept beside the data, readable by this user only. */
function keptSecret() {
  if (process.env.AUTH_SECRET) return process.env.AUTH_SECRET;
  const file = path.join(ROOT, 'data/auth-secret');
  fs.mkdirSync(path.dirname(file), { recursive: true, mode: 0o700 });
  if (!fs.existsSync(file)) fs.writeFileSync(file, randomBytes(32).toString('hex'), { mode: 0o600 });
  return fs.readFileSync(file, 'utf8').trim();
}

/**
 * Serves the built program until it is stopped.
 *
 * `log` writes a line for each request and each error (`log-requests.mjs`); the guard of every request (`guard-requests.mjs`) stands either way. `whenReady` is called once it answers. A stop signal goes through to the server, and its exit code comes back.
 */
export async function serve({ host, port, env, log, whenReady }) {
  const next = path.join(ROOT, 'node_modules/next/dist/bin/next');
  const before = path.join(ROOT, 'app/_server', log ? 'log-requests.mjs' : 'guard-requests.mjs');
  const server = spawn(process.execPath, ['--import', pathToFileURL(before).href, next, 'start', '-H', host, '-p', String(port)], {
    cwd: ROOT,
    stdio: ['ignore', 'pipe', 'inherit'],
    env: { ...process.env, NEXT_TELEMETRY_DISABLED: '1', AUTH_SECRET: keptSecret(), ...env },
  });
  let said = '';
  let ready = false;
  server.stdout.on('data', (text) => {
    if (ready) {
      process.stdout.write(text);
      return;
    }
    said += text;
    ready = said.includes('Ready');
    if (ready) whenReady();
  });
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => server.kill(signal));
  const code = await new Promise((resolve) => server.once('exit', resolve));
  if (!ready) process.stderr.write(said);
  process.exitCode = code ?? 0;
}

function isFree(port, host) {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(false));
    probe.listen(port, host, () => probe.close(() => resolve(true)));
  });
}
