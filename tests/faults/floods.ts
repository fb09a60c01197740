import fs from 'node:fs';
import http from 'node:http';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { type BuiltServer, runScript, startBuilt } from '../built-server';

const MB = 1024 * 1024;
const CHUNK = Buffer.alloc(MB, 'a');
/** Addresses that take a body, from somebody who is not signed in. */
const PLACES = ['/sign-in', '/api/auth/sign-in/email', '/api/draft', '/clinic/exchange/upload'];

type Flooded = { readonly memoryMb: number; readonly calmMs: number; readonly floodedMs: number };

/** Bodies of so many MB from a stranger, all at once, half of them with no length said: how many were taken whole, and what it cost. */
export async function floodWithBodies(sizeMb: number): Promise<Flooded & { readonly bodies: number; readonly taken: number }> {
  return withServer(async (server) => {
    const calm = await calmly(server);
    let sending = true;
    const all = Promise.all(PLACES.map((place, index) => sendBody(`${server.address}${place}`, sizeMb, index % 2 === 0))).finally(() => {
      sending = false;
    });
    const cost = await watched(server, calm, () => sending);
    const taken = (await all).filter(({ sentMb }) => sentMb >= sizeMb).length;
    return { bodies: PLACES.length, taken, ...cost };
  });
}

/** Connections that send the head of a request a letter at a time, for a while: whether others are answered, and what it cost. */
export async function floodWithSlowHeads(
  connections: number,
): Promise<Flooded & { readonly connections: number; readonly stillOpen: number }> {
  return withServer(async (server) => {
    const calm = await calmly(server);
    const { hostname, port } = new URL(server.address);
    const sockets = Array.from({ length: connections }, () => {
      const socket = net.connect(Number(port), hostname);
      socket.on('error', () => socket.destroy());
      return socket;
    });
    const drops = setInterval(() => {
      for (const socket of sockets) if (!socket.destroyed) socket.write('G');
    }, 500);
    const until = Date.now() + 20_000;
    const cost = await watched(server, calm, () => Date.now() < until);
    clearInterval(drops);
    const stillOpen = sockets.filter((socket) => !socket.destroyed && socket.readyState === 'open').length;
    for (const socket of sockets) socket.destroy();
    return { connections, stillOpen, ...cost };
  });
}

async function withServer<T>(work: (server: BuiltServer) => Promise<T>): Promise<T> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-flood-'));
  const env = { DATABASE_URL: '', DB_FILE: path.join(folder, 'clinic.db'), AUTH_SECRET: 'only for tests, signs nothing real' };
  runScript('tests/faults/seed-a-few-patients.ts', env);
  const server = await startBuilt(env);
  try {
    return await work(server);
  } finally {
    await server.end('SIGTERM');
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

type Calm = { readonly calmMs: number; readonly beforeMb: number };

/** The longest that the sign-in page takes, ms, and what memory the server uses, MB, once it has answered twenty times. */
async function calmly(server: BuiltServer): Promise<Calm> {
  for (let times = 0; times < 20; times++) await timed(server);
  let calmMs = 0;
  for (let times = 0; times < 20; times++) calmMs = Math.max(calmMs, await timed(server));
  return { calmMs: Math.round(calmMs), beforeMb: residentMb(server.pid) };
}

/** The same while it is flooded: the longest answer, and how much memory it took on. */
async function watched(server: BuiltServer, { calmMs, beforeMb }: Calm, isFlooded: () => boolean): Promise<Flooded> {
  let [floodedMs, most] = [0, beforeMb];
  do {
    floodedMs = Math.max(floodedMs, await timed(server));
    most = Math.max(most, residentMb(server.pid));
  } while (isFlooded());
  return { memoryMb: Math.round(most - beforeMb), calmMs, floodedMs: Math.round(floodedMs) };
}

async function timed({ address }: BuiltServer): Promise<number> {
  const start = performance.now();
  const answer = await fetch(`${address}/sign-in`, { headers: { connection: 'close' } });
  await answer.text();
  if (answer.status !== 200) throw new Error(`somebody else was answered ${answer.status}`);
  return performance.now() - start;
}

function residentMb(pid: number): number {
  return Number(/VmRSS:\s+(\d+)/.exec(fs.readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? 0) / 1024;
}

/** How much of a body left here before it was refused, MB, and the status it was answered with; undefined where the connection was closed. */
function sendBody(address: string, sizeMb: number, saysLength: boolean): Promise<{ sentMb: number; status: number | undefined }> {
  return new Promise((resolve) => {
    let sentMb = 0;
    const headers = { 'content-type': 'application/json', origin: new URL(address).origin };
    const length = saysLength ? { 'content-length': sizeMb * MB } : {};
    const request = http.request(address, { method: 'POST', headers: { ...headers, ...length } }, (answer) => {
      answer.resume();
      resolve({ sentMb, status: answer.statusCode });
    });
    request.on('error', () => resolve({ sentMb, status: undefined }));
    const more = () => {
      if (request.destroyed) return;
      if (sentMb >= sizeMb) return void request.end();
      request.write(CHUNK, () => {
        sentMb += 1;
        more();
      });
    };
    more();
  });
}
