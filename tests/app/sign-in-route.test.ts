import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { hashPassword } from 'better-auth/crypto';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { authenticator } from '@/tests/e2e/authenticator';
import { startPostgres } from '@/tests/postgres-server';

const PASSWORD = 'taped twice on a tuesday';
const HOST = 'clinic.example';
const UNITS = { subtitle: '', lengthUnit: 'in', massUnit: 'lb', timeZone: 'Europe/London' } as const;

let folder = '';
let door: Awaited<ReturnType<typeof modules>>;

async function modules() {
  vi.resetModules();
  return {
    route: await import('@/app/api/auth/[...all]/route'),
    caller: await import('@/app/_auth/caller-address'),
    factor: await import('@/app/_auth/second-factor'),
    people: await import('@/db/people/people'),
    manage: await import('@/db/people/manage-people'),
    own: await import('@/db/people/second-factor'),
    therapist: await import('@/db/therapist'),
    client: await import('@/db/client'),
  };
}

beforeEach(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-door-'));
  vi.stubEnv('DATABASE_URL', '');
  vi.stubEnv('DB_FILE', path.join(folder, 'clinic.db'));
  vi.stubEnv('AUTH_SECRET', 'only for this test, signs nothing real');
  vi.stubEnv('APP_URL', '');
  vi.stubEnv('TRUSTED_PROXY_HEADER', '');
  door = await modules();
});

afterEach(async () => {
  await door.client.closeDatabase();
  vi.unstubAllEnvs();
  vi.useRealTimers();
  fs.rmSync(folder, { recursive: true, force: true });
});

async function lead(email = 'lead@harbour.example') {
  const person = { name: 'R. Adeyemi', role: 'lead', email, passwordHash: await hashPassword(PASSWORD) } as const;
  const added = await door.people.openClinic({ ...UNITS, name: 'Harbour Lane' }, person);
  const therapist = added.kind === 'added' ? await door.therapist.therapistWithId(added.id) : undefined;
  if (!therapist) throw new Error('the lead was not added');
  return therapist;
}

function post(body: Record<string, string>, headers: Record<string, string> = {}): Promise<Response> {
  const sent = { host: HOST, origin: `http://${HOST}`, 'content-type': 'application/json', ...headers };
  const request = new Request(`http://${HOST}/api/auth/sign-in/email`, { method: 'POST', headers: sent, body: JSON.stringify(body) });
  return door.route.POST(request);
}

const right = { email: 'lead@harbour.example', password: PASSWORD };

async function leadWithFactor(now: number) {
  const therapist = await lead();
  const offer = await door.factor.offerFactor({ id: therapist.id, email: right.email }, 'Harbour Lane');
  const secret = offer.key.replaceAll(' ', '');
  const confirmed = await door.factor.confirmFactor(therapist.id, offer.sealed, authenticator(secret, now), new Date(now));
  if (!confirmed) throw new Error('the code of the authenticator was not taken');
  await door.own.turnFactorOn(therapist, confirmed.factor);
  return { therapist, secret, recoveryCodes: confirmed.recoveryCodes };
}

describe('the door', () => {
  it('opens for the right password, with a cookie that scripts cannot read and that lasts a shift', async () => {
    await lead();
    const answer = await post(right);
    expect(answer.status).toBe(200);
    const [cookie] = answer.headers.getSetCookie();
    expect(cookie).toMatch(/^better-auth\.session_token=[^;]+; Max-Age=43200; Path=\/; HttpOnly; SameSite=Lax$/);
  });

  it('behind https its cookie is Secure and carries the prefix that browsers check', async () => {
    vi.stubEnv('APP_URL', 'https://clinic.example');
    await lead();
    const [cookie] = (await post(right, { origin: 'https://clinic.example' })).headers.getSetCookie();
    expect(cookie).toMatch(/^__Secure-[^;]+;.*; HttpOnly; Secure; SameSite=Lax$/);
  });

  it.each([
    ['another site', { origin: 'https://elsewhere.example' }],
    ['nowhere it tells', { origin: 'null' }],
    ['another site that pretends', { 'sec-fetch-site': 'cross-site' }],
    ['a sibling site', { 'sec-fetch-site': 'same-site' }],
  ])('does not answer a page of %s', async (_where, headers) => {
    await lead();
    expect((await post(right, headers)).status).toBe(403);
  });

  it('tells a wrong password and an unknown person apart for nobody', async () => {
    await lead();
    const [wrong, unknown] = [await post({ ...right, password: 'not the right one' }), await post({ ...right, email: 'no@body.example' })];
    expect([wrong.status, unknown.status]).toEqual([401, 401]);
    expect(await wrong.text()).toBe(await unknown.text());
  });

  it('the entry that a trusted proxy itself added is the caller, not the ones a caller put before it', () => {
    const list = new Headers({ 'x-forwarded-for': '10.9.9.9, 192.0.2.1', 'x-real-ip': '192.0.2.2' });
    expect(door.caller.callerAddress(list, 'x-forwarded-for')).toBe('192.0.2.1');
    expect(door.caller.callerAddress(list, 'X-Real-IP')).toBe('192.0.2.2');
    expect(door.caller.callerAddress(list, '')).toBe('unknown');
  });

  it('a whole IPv6 network of 64 bits is one caller, an IPv4 address written as IPv6 is itself', () => {
    const from = (caller: string) => door.caller.callerAddress(new Headers({ 'x-real-ip': caller }), 'x-real-ip');
    expect(from('2001:db8:1:2:ffff:1:2:3')).toBe(from('2001:db8:1:2::7'));
    expect(from('2001:db8:1:3::7')).not.toBe(from('2001:db8:1:2::7'));
    expect(from('2001:db8::7')).toBe(from('2001:db8:0:0:1::'));
    expect(from('::ffff:192.0.2.1')).toBe('192.0.2.1');
  });

  it('a disabled person with the right password stays out', async () => {
    const therapist = await lead();
    const reader = {
      name: 'K. Doan',
      role: 'read-only',
      email: 'reader@harbour.example',
      passwordHash: await hashPassword(PASSWORD),
    } as const;
    const added = await door.people.addPerson(therapist.clinicId, reader);
    await door.manage.disablePerson(therapist, added.kind === 'added' ? added.id : '');
    const answer = await post({ email: reader.email, password: PASSWORD });
    expect([answer.status, await answer.json()]).toEqual([401, { kind: 'disabled' }]);
    expect(answer.headers.getSetCookie()).toEqual([]);
  });
});

describe('a second factor', () => {
  const NOW = Date.parse('2026-11-25T10:00:10Z');

  beforeEach(() => vi.useFakeTimers({ now: NOW + 60_000, toFake: ['Date'] }));

  it('is asked for after the right password only, and no session begins before it', async () => {
    await leadWithFactor(NOW);
    const [asked, wrong] = [await post(right), await post({ ...right, password: 'not the right one' })];
    expect([asked.status, await asked.json(), asked.headers.getSetCookie()]).toEqual([401, { kind: 'code-needed' }, []]);
    expect(await wrong.json()).toEqual({ kind: 'wrong' });
  });

  it('opens for the code of an authenticator program, each code once, and for no earlier one after a later one', async () => {
    const { secret } = await leadWithFactor(NOW);
    const [earlier, code] = [authenticator(secret, NOW + 30_000), authenticator(secret, NOW + 60_000)];
    expect((await post({ ...right, code: `${code.slice(0, 3)} ${code.slice(3)}` })).status).toBe(200);
    for (const spent of [code, earlier]) expect(await (await post({ ...right, code: spent })).json()).toEqual({ kind: 'wrong-code' });
    vi.setSystemTime(NOW + 90_000);
    expect((await post({ ...right, code: authenticator(secret, NOW + 90_000) })).status).toBe(200);
  });

  it('one code sent five times at the same moment opens once', async () => {
    const { secret } = await leadWithFactor(NOW);
    const code = authenticator(secret, NOW + 60_000);
    const answers = await Promise.all(Array.from({ length: 5 }, () => post({ ...right, code })));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 401, 401, 401, 401]);
  });

  it('each of ten recovery codes opens once, however it is typed', async () => {
    const { recoveryCodes } = await leadWithFactor(NOW);
    expect(new Set(recoveryCodes).size).toBe(10);
    const [first = '', second = ''] = recoveryCodes;
    expect((await post({ ...right, code: first })).status).toBe(200);
    expect((await post({ ...right, code: first })).status).toBe(401);
    expect((await post({ ...right, code: second.toUpperCase().replaceAll('-', ' ') })).status).toBe(200);
  });

  it('wrong codes are counted for the account: the ninth try is refused although its code is right, also between passwords that are right', async () => {
    const { secret } = await leadWithFactor(NOW);
    for (let tries = 1; tries <= 8; tries += 1) {
      await post(right);
      expect((await post({ ...right, code: '000000' })).status).toBe(401);
    }
    expect((await post({ ...right, code: authenticator(secret, NOW + 60_000) })).status).toBe(429);
    vi.setSystemTime(NOW + 17 * 60_000);
    expect((await post({ ...right, code: authenticator(secret, NOW + 17 * 60_000) })).status).toBe(200);
  });

  it('opens just so on PostgreSQL', async () => {
    const server = await startPostgres();
    try {
      await door.client.closeDatabase();
      vi.stubEnv('DATABASE_URL', server.url);
      door = await modules();
      const { secret, recoveryCodes } = await leadWithFactor(NOW);
      const code = authenticator(secret, NOW + 60_000);
      const answers = await Promise.all(Array.from({ length: 5 }, () => post({ ...right, code })));
      expect(answers.map(({ status }) => status).sort()).toEqual([200, 401, 401, 401, 401]);
      const twice = await Promise.all([post({ ...right, code: recoveryCodes[0] ?? '' }), post({ ...right, code: recoveryCodes[0] ?? '' })]);
      expect(twice.map(({ status }) => status).sort()).toEqual([200, 401]);
    } finally {
      await door.client.closeDatabase();
      await server.stop();
    }
  });

  it('somebody else’s offer cannot be confirmed', async () => {
    const offer = await door.factor.offerFactor({ id: 'one', email: 'one@harbour.example' }, 'Harbour Lane');
    const code = authenticator(offer.key.replaceAll(' ', ''), NOW);
    expect(await door.factor.confirmFactor('two', offer.sealed, code, new Date(NOW))).toBeUndefined();
    expect(await door.factor.confirmFactor('one', offer.sealed, code, new Date(NOW))).toBeDefined();
  });

  it('its secret does not stand in the database as it is', async () => {
    const { secret } = await leadWithFactor(NOW);
    await door.client.closeDatabase();
    for (const name of fs.readdirSync(folder)) expect(fs.readFileSync(path.join(folder, name)).includes(secret)).toBe(false);
  });
});
