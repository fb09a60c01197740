import { AsyncLocalStorage } from 'node:async_hooks';
import { randomUUID } from 'node:crypto';
import { subscribe } from 'node:diagnostics_channel';
import fs from 'node:fs';
import './guard-requests.mjs';
import { errorLine, requestLine } from './log-line.mjs';

/*
 * Loaded before the server (`node --import`): every request gets an id, which is in its answer (X-Request-Id), in its line of the log and
 * in the line of any error it met. A line is JSON; it goes to LOG_FILE, else to standard output. Files of the program are not logged.
 */

const current = new AsyncLocalStorage();
const began = new WeakMap();
if (process.env.LOG_FILE && fs.existsSync(process.env.LOG_FILE) && fs.statSync(process.env.LOG_FILE).isFile())
  fs.chmodSync(process.env.LOG_FILE, 0o600);
const out = process.env.LOG_FILE ? fs.createWriteStream(process.env.LOG_FILE, { flags: 'a', mode: 0o600 }) : process.stdout;

subscribe('http.server.request.start', ({ request, response }) => {
  const id = randomUUID();
  began.set(request, { id, from: performance.now() });
  response.setHeader('X-Request-Id', id);
  current.enterWith(id);
});

subscribe('http.server.response.finish', ({ request, response }) => {
  const { id, from } = began.get(request) ?? {};
  if (!id || request.url?.startsWith('/_next/')) return;
  const ms = Math.round((performance.now() - from) * 10) / 10;
  write(requestLine({ id, method: request.method, url: request.url, status: response.statusCode, ms, at: new Date().toISOString() }));
});

for (const level of ['error', 'warn']) {
  console[level] = (...said) => write(errorLine({ id: current.getStore(), said, at: new Date().toISOString() }));
}

function write(line) {
  out.write(`${JSON.stringify(line)}\n`);
}
