import { createHmac } from 'node:crypto';
import http from 'node:http';
import net from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import '@/app/_server/guard-requests.mjs';

const SECRET = 'only for this test, signs nothing real';
const KB = 1024;

let server: http.Server;
let port = 0;
/** Bytes that the program behind the guard was given. */
let given = 0;

beforeEach(async () => {
  vi.stubEnv('AUTH_SECRET', SECRET);
  given = 0;
  server = http.createServer((request, response) => {
    if (request.url?.startsWith('/fails')) {
      response.statusCode = 500;
      response.write('the framework’s');
      return void response.end(' own');
    }
    response.setHeader('Content-Security-Policy', "default-src 'none'; script-src 'self'; style-src 'self'");
    request.on('data', (chunk) => (given += chunk.length));
    request.on('error', () => {});
    request.on('end', () => response.end(JSON.stringify(request.headers)));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  port = (server.address() as net.AddressInfo).port;
});

afterEach(async () => {
  vi.unstubAllEnvs();
  server.closeAllConnections();
  await new Promise((resolve) => server.close(resolve));
});

function signedCookie(secret = SECRET): string {
  const signature = createHmac('sha256', secret).update('token').digest('base64');
  return `better-auth.session_token=${encodeURIComponent(`token.${signature}`)}`;
}

const post = (bytes: number, headers: Record<string, string> = {}, path = '/sign-in') =>
  fetch(`http://127.0.0.1:${port}${path}`, { method: 'POST', body: 'x'.repeat(bytes), headers, redirect: 'manual' });

/** A body whose length is not said: the status that comes back, and how much was taken from us before. */
function postUnsaid(bytes: number): Promise<number | undefined> {
  return new Promise((resolve) => {
    const request = http.request({ port, host: '127.0.0.1', method: 'POST', path: '/sign-in' }, (answer) => resolve(answer.statusCode));
    request.on('error', () => resolve(undefined));
    for (let sent = 0; sent < bytes; sent += 16 * KB) request.write('x'.repeat(16 * KB));
    request.end();
  });
}

describe('a page that failed', () => {
  const failing = (headers: Record<string, string>, method = 'GET') =>
    fetch(`http://127.0.0.1:${port}/fails?a=%22%3Cb`, { method, headers: { accept: 'text/html', ...headers } });

  it('says so in words that need no script, with the way on, and keeps its status', async () => {
    const answer = await failing({});
    const text = await answer.text();
    expect([answer.status, answer.headers.get('content-type')]).toEqual([500, 'text/html; charset=utf-8']);
    expect(text).toContain('Everything saved before is kept.');
    expect(text).toContain('<a href="/fails?a=%22%3Cb">Try again</a>');
    expect(text).not.toContain('the framework');
    expect(await (await failing({}, 'POST')).text()).toMatch(/is not certain[\s\S]*Go to Today/);
  });

  it('is left to the program where its own script asked, and where no page was asked for', async () => {
    const asked: readonly Record<string, string>[] = [{ rsc: '1' }, { accept: 'application/json' }];
    for (const headers of asked) expect(await (await failing(headers)).text()).toBe('the framework’s own');
  });
});

describe('a request that no page of this program sends', () => {
  const call = (body: string, headers: Record<string, string> = {}) =>
    fetch(`http://127.0.0.1:${port}/patients`, {
      method: 'POST',
      body,
      headers: { 'next-action': 'x', 'content-type': 'text/plain', ...headers },
    });
  const raw = (path: string, host = 'here.example') =>
    new Promise<number | undefined>((resolve, reject) => {
      const asked = http.request({ port, host: '127.0.0.1', path, headers: { host } }, (answer) => resolve(answer.resume().statusCode));
      asked.on('error', reject).end();
    });

  it.each([
    ['nothing', ''],
    ['no JSON', '{{{'],
    ['no list', '5'],
    ['null', 'null'],
    ['a reference to a part that did not come', '["$F1"]'],
    ['a reference deep inside', '[{"a":["$K2"]}]'],
    ['twenty thousand lists in one another', `${'['.repeat(20_000)}${']'.repeat(20_000)}`],
  ])('is answered 400 in one line and reaches nothing: a call with %s', async (_what, body) => {
    const answer = await call(body);
    expect([answer.status, (await answer.text()).trim().split('\n').length, given]).toEqual([400, 1, 0]);
  });

  it('is no call with a text that begins with a dollar, a day, nothing, or a whole sheet: it comes on byte for byte', async () => {
    for (const body of [
      '[]',
      '["$$5 a piece","$undefined","$D2026-11-30T00:00:00.000Z","$NaN"]',
      JSON.stringify(['x'.repeat(50_000), { a: [{ b: 'ü🧵' }] }]),
    ]) {
      given = 0;
      expect((await call(body)).status).toBe(200);
      expect(given).toBe(Buffer.byteLength(body));
    }
  });

  it('is a form that was cut off; one that came whole goes on', async () => {
    const form = new FormData();
    form.append('name', 'Mira');
    const asked = new Request('http://here.example', { method: 'POST', body: form });
    const [type, whole] = [asked.headers.get('content-type') ?? '', await asked.text()];
    expect((await call(whole, { 'content-type': type })).status).toBe(200);
    expect((await call(whole.slice(0, -20), { 'content-type': type })).status).toBe(400);
  });

  it('is refused when its address cannot be read', async () => {
    expect([await raw('/patients/%zz'), await raw('/patients/%00'), await raw('/patients/%E2%82%AC?q=%zz')]).toEqual([400, 400, 200]);
  });

  it('is refused when a page of another site sends it', async () => {
    expect((await call('[]', { origin: 'https://elsewhere.example' })).status).toBe(403);
    expect((await call('[]', { origin: 'null' })).status).toBe(403);
    expect((await call('[]', { origin: `http://127.0.0.1:${port}` })).status).toBe(200);
    vi.stubEnv('APP_URL', 'https://clinic.example/');
    expect((await call('[]', { origin: 'https://clinic.example' })).status).toBe(200);
  });

  it('is refused at another host than the one people type, where one is set; an address of the machine is not', async () => {
    expect(await raw('/', 'elsewhere.example')).toBe(200);
    vi.stubEnv('APP_URL', 'https://clinic.example');
    expect([await raw('/', 'elsewhere.example'), await raw('/', 'clinic.example.elsewhere.example')]).toEqual([421, 421]);
    expect([
      await raw('/', 'clinic.example'),
      await raw('/', `127.0.0.1:${port}`),
      await raw('/', 'localhost'),
      await raw('/', '[::1]:3000'),
    ]).toEqual([200, 200, 200, 200]);
  });
});

describe('the guard of every request', () => {
  it('takes 64 kB from a stranger, 1 MB from who is signed in, a file only at its address', async () => {
    expect((await post(64 * KB)).status).toBe(200);
    expect((await post(64 * KB + 1)).status).toBe(413);
    expect((await post(1024 * KB, { cookie: signedCookie() })).status).toBe(200);
    expect((await post(1024 * KB + 1, { cookie: signedCookie() })).status).toBe(413);
    expect((await post(2048 * KB, { cookie: signedCookie() }, '/clinic/exchange/upload')).status).toBe(200);
    expect((await post(2048 * KB, {}, '/clinic/exchange/upload')).status).toBe(413);
    const refused = await post(41 * 1024 * KB, { cookie: signedCookie() }, '/clinic/exchange/upload');
    expect([refused.status, refused.headers.get('location')]).toEqual([303, '/clinic/exchange?refused=too%20large']);
  });

  it.each([
    ['another secret', () => signedCookie('another secret, which signs nothing real')],
    ['no signature', () => 'better-auth.session_token=token'],
    ['a broken escape', () => 'better-auth.session_token=%E0%A4%A'],
  ])('takes a cookie with %s for a stranger’s', async (_what, cookie) => {
    expect((await post(100 * KB, { cookie: cookie() })).status).toBe(413);
  });

  it('counts a body whose length is not said as it comes, and passes no more on than is allowed', async () => {
    expect(await postUnsaid(48 * KB)).toBe(200);
    given = 0;
    expect([413, undefined]).toContain(await postUnsaid(4096 * KB));
    expect(given).toBeLessThanOrEqual(64 * KB);
  });

  it('has room for so many unfinished bodies of one caller, and is free again when they are gone', async () => {
    const open = Array.from({ length: 16 }, () => net.connect(port, '127.0.0.1'));
    for (const socket of open) {
      socket.on('error', () => {});
      socket.write('POST /sign-in HTTP/1.1\r\nHost: here\r\nContent-Length: 100\r\n\r\nx');
    }
    await vi.waitFor(async () => expect((await post(10)).status).toBe(503));
    for (const socket of open) socket.destroy();
    await vi.waitFor(async () => expect((await post(10)).status).toBe(200));
  });

  it('answers while 600 connections send nothing', async () => {
    const open = Array.from({ length: 600 }, () => net.connect(port, '127.0.0.1'));
    let dropped = 0;
    for (const socket of open) {
      socket.on('error', () => {});
      socket.on('close', () => dropped++);
      socket.write('GET / HTTP/1.1\r\nHost: he');
    }
    await vi.waitFor(() => expect(dropped).toBeGreaterThanOrEqual(600 - 256), 10_000);
    const started = performance.now();
    expect((await fetch(`http://127.0.0.1:${port}/`)).status).toBe(200);
    expect(performance.now() - started).toBeLessThan(1000);
    for (const socket of open) socket.destroy();
    await pause(10);
  });

  it('tells the program the address of the socket in a header that nobody outside can name', async () => {
    const name = process.env.RUNGWISE_CALLER_HEADER ?? '';
    expect(name).toMatch(/^x-caller-[0-9a-f]{32}$/);
    const seen = (await (await fetch(`http://127.0.0.1:${port}/`, { headers: { [name]: '203.0.113.9' } })).json()) as Record<
      string,
      string
    >;
    expect(seen[name]).toBe('127.0.0.1');
  });

  it('makes a word for the scripts of each answer, the same in what the program is told and in the policy, never one from outside', async () => {
    const words = new Set<string>();
    for (let answers = 0; answers < 20; answers++) {
      const sent = {
        'content-security-policy': "script-src 'nonce-forged'",
        'content-security-policy-report-only': "script-src 'nonce-forged'",
      };
      const answer = await fetch(`http://127.0.0.1:${port}/`, { headers: sent });
      const policy = answer.headers.get('content-security-policy') ?? '';
      const word = /script-src 'self' 'nonce-([A-Za-z0-9+/=]{24})';/.exec(policy)?.[1] ?? '';
      const seen = (await answer.json()) as Record<string, string>;
      expect(seen['content-security-policy']).toBe(`script-src 'nonce-${word}'`);
      expect(seen['content-security-policy-report-only']).toBeUndefined();
      words.add(word);
    }
    expect(words.size).toBe(20);
  });
});
