import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { hashPassword } from 'better-auth/crypto';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

const PASSWORD = 'taped twice on a tuesday';
const HOST = 'clinic.example';
const EMAIL = 'lead@harbour.example';
const UNITS = { subtitle: '', lengthUnit: 'in', massUnit: 'lb', timeZone: 'Europe/London' } as const;
const START = Date.parse('2026-11-25T10:00:00Z');
const MINUTE = 60_000;

let folder = '';
let door: Awaited<ReturnType<typeof modules>>;

async function modules() {
  vi.resetModules();
  return {
    route: await import('@/app/api/auth/[...all]/route'),
    people: await import('@/db/people/people'),
    tries: await import('@/db/people/login-attempts'),
    client: await import('@/db/client'),
    known: await import('@/app/_auth/known-browser'),
  };
}

beforeEach(async () => {
  vi.useFakeTimers({ now: START, toFake: ['Date'] });
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-strangers-'));
  vi.stubEnv('DATABASE_URL', '');
  vi.stubEnv('DB_FILE', path.join(folder, 'clinic.db'));
  vi.stubEnv('AUTH_SECRET', 'only for this test, signs nothing real');
  vi.stubEnv('APP_URL', '');
  vi.stubEnv('TRUSTED_PROXY_HEADER', '');
  vi.stubEnv('RUNGWISE_CALLER_HEADER', 'x-caller-of-this-test');
  door = await modules();
  const person = { name: 'R. Adeyemi', role: 'lead', email: EMAIL, passwordHash: await hashPassword(PASSWORD) } as const;
  await door.people.openClinic({ ...UNITS, name: 'Harbour Lane' }, person);
});

afterEach(async () => {
  await door.client.closeDatabase();
  vi.unstubAllEnvs();
  vi.useRealTimers();
  fs.rmSync(folder, { recursive: true, force: true });
});

async function sign(password: string, from: string, cookie = ''): Promise<Response> {
  const sent = { host: HOST, origin: `http://${HOST}`, 'content-type': 'application/json', 'x-caller-of-this-test': from, cookie };
  const body = JSON.stringify({ email: EMAIL, password });
  return door.route.POST(new Request(`http://${HOST}/api/auth/sign-in/email`, { method: 'POST', headers: sent, body }));
}

/** The cookie of a good sign-in without that of its session: the browser as it comes back another day. */
async function knownCookieFrom(address: string): Promise<string> {
  const cookies = (await sign(PASSWORD, address)).headers.getSetCookie();
  return cookies.find((one) => one.startsWith('rungwise-known-'))?.split(';')[0] ?? '';
}

describe('strangers who try', () => {
  it('use up their own tries, never those of a browser that signed in before', async () => {
    const cookie = await knownCookieFrom('192.0.2.1');
    const statuses = new Map<number, number>();
    for (let tries = 0; tries < 200; tries++) {
      const { status } = await sign('wrong', `203.0.113.${tries % 50}`);
      statuses.set(status, (statuses.get(status) ?? 0) + 1);
    }
    process.stdout.write(`200 wrong tries from 50 addresses: ${statuses.get(401)} looked at, ${statuses.get(429)} held back\n`);
    expect(statuses.get(401)).toBe(door.tries.OF_ACCOUNT_FROM_STRANGERS.free);
    expect((await sign(PASSWORD, '203.0.113.1')).status).toBe(429);
    expect((await sign(PASSWORD, '192.0.2.77', cookie)).status).toBe(200);
    expect((await sign(PASSWORD, '203.0.113.1', cookie)).status).toBe(200);
  });

  it('at one address wait longer each time, and hold back nobody at another', async () => {
    const { waitAfter, OF_ACCOUNT_AND_CALLER } = door.tries;
    expect([0, 7, 8, 9, 10, 11, 12, 40].map((tries) => waitAfter(tries, OF_ACCOUNT_AND_CALLER) / MINUTE)).toEqual([
      0, 0, 1, 2, 4, 8, 15, 15,
    ]);
    for (let tries = 0; tries < 8; tries++) expect((await sign('wrong', '203.0.113.1')).status).toBe(401);
    const waits: number[] = [];
    for (let more = 0; more < 5; more++) {
      const held = await sign('wrong', '203.0.113.1');
      const { waitMinutes } = (await held.json()) as { waitMinutes: number };
      waits.push(waitMinutes);
      vi.setSystemTime(Date.now() + waitMinutes * MINUTE);
      expect((await sign('wrong', '203.0.113.1')).status).toBe(401);
    }
    expect(waits).toEqual([1, 2, 4, 8, 15]);
    expect((await sign(PASSWORD, '192.0.2.9')).status).toBe(200);
  });

  it('in a known browser wait too: its cookie opens nothing', async () => {
    const cookie = await knownCookieFrom('192.0.2.1');
    for (let tries = 0; tries < 8; tries++) expect((await sign('wrong', '192.0.2.1', cookie)).status).toBe(401);
    expect((await sign(PASSWORD, '192.0.2.1', cookie)).status).toBe(429);
    expect((await sign(PASSWORD, '192.0.2.1')).status).toBe(200);
  });

  it.each([
    ['another account', () => door.known.knownCookie('other@harbour.example')],
    ['longer ago than half a year', () => door.known.knownCookie(EMAIL, START - 181 * 86_400_000)],
    ['a made-up signature', () => ({ ...door.known.knownCookie(EMAIL), value: `${'a'.repeat(22)}.20000.${'b'.repeat(43)}` })],
  ])('with a cookie of %s are strangers', (_what, made) => {
    const { value } = made();
    const name = door.known.knownCookie(EMAIL).name;
    expect(door.known.knownBrowser(new Headers({ cookie: `${name}=${value}` }), EMAIL)).toBeUndefined();
    const own = door.known.knownCookie(EMAIL).value;
    expect(door.known.knownBrowser(new Headers({ cookie: `a=b; ${name}=${own}` }), EMAIL)).toBe(own.split('.')[0]);
  });
});
