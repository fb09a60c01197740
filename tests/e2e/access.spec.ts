import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { ACTIONS, type Given, type Needs, PAGES, ROUTES } from './access-table';
import { MARKERS, MILL, makeMillLane, rowsNaming, sessionOfLead } from './other-clinic';
import { PASSWORD, PEOPLE } from './people';
import { screenFaults } from './screen-faults';

test.use({ storageState: { cookies: [], origins: [] } });

/** Who asks: a cookie, and from where. */
type Asker = { readonly who: string; readonly cookie: string; readonly origin?: string };

let address = '';
let ids: Record<string, string> = {};
let askers: Record<'nobody' | 'elsewhere' | 'lead' | 'therapist' | 'reader', Asker>;

test.beforeAll(async ({ baseURL }) => {
  address = baseURL ?? '';
  ids = await makeMillLane();
  askers = {
    nobody: { who: 'nobody', cookie: '' },
    /** Not the lead that the other tests are signed in as: one deed asked for here ends all other sessions of who asks. */
    elsewhere: { who: 'the lead of another clinic', cookie: await cookieOf(PEOPLE.crowded.email) },
    lead: { who: 'the lead', cookie: await cookieOf(MILL.lead) },
    therapist: { who: 'a therapist', cookie: await cookieOf(MILL.therapist) },
    reader: { who: 'a read-only person', cookie: await cookieOf(MILL.reader) },
  };
  ids.sessionId = sessionOfLead();
});

test('no page, action or route answers whom it is not for, nor a page of another site; and each answers whom it is for', async () => {
  test.setTimeout(300_000);
  const [leaving, ...others] = [...routes().reverse(), ...pages(), ...actions()];
  const entries = [...others, ...(leaving ? [leaving] : [])];
  expect(leaving?.name, 'who is signed out is asked nothing more').toBe('POST sign-out/route.ts');
  const victims = [...Object.values(ids)];
  const before = rowsNaming(victims);
  const answered: string[] = [];
  let combinations = 0;
  const refused = async (entry: Entry, asker: Asker, why: 'nobody' | 'role' | 'clinic' | 'site') => {
    combinations += 1;
    const said = await entry.ask(asker, ids);
    if (!isRefusal(entry, said, why)) answered.push(`${entry.name} answered ${asker.who} (${why}): ${said.status} ${said.goesTo}`);
  };
  for (const entry of entries.filter(({ needs }) => needs !== 'nobody')) {
    await refused(entry, askers.nobody, 'nobody');
    await refused(entry, askers.elsewhere, 'clinic');
    if (entry.needs !== 'signed in') await refused(entry, askers.reader, 'role');
    if (entry.needs === 'leads') await refused(entry, askers.therapist, 'role');
    if (entry.changes) await refused(entry, { ...askers.lead, origin: 'https://elsewhere.example' }, 'site');
    if (entry.changes) await refused(entry, { ...askers.lead, origin: 'none' }, 'site');
  }
  console.log(`      ${entries.length} entries, ${combinations} combinations that must not be answered: ${answered.length} answered`);
  expect.soft(answered).toEqual([]);
  expect.soft(rowsNaming(victims), 'nothing of the other clinic was changed').toEqual(before);

  const shut: string[] = [];
  for (const entry of others.filter(({ needs }) => needs !== 'nobody')) {
    const said = await entry.ask(askers.lead, entry.changes ? {} : ids);
    const isShut = /^\/(sign-in|not-allowed)/.test(said.goesTo) || said.status === 403 || (!entry.changes && said.status !== 200);
    if (isShut) shut.push(`${entry.name}: ${said.status} ${said.goesTo}`);
  }
  expect(shut, 'entries that do not answer the lead of the clinic').toEqual([]);
});

test('every screen works under its own content policy, breaks no rule that axe can see in light or dark, and fits 320 px', async ({
  page,
}) => {
  test.setTimeout(600_000);
  const found: string[] = [];
  let place = '';
  page.on('console', (message) => /Content Security Policy/i.test(message.text()) && found.push(`${place} ${message.text()}`));
  page.on('pageerror', (error) => found.push(`${place} ${error.message}`));
  page.on('request', (request) => !request.url().startsWith(address) && found.push(`${place} asks for ${request.url()}`));
  const [name = '', value = ''] = (askers.lead.cookie.split('; ')[0] ?? '').split(/=(.*)/);
  await page.context().addCookies([{ name, value, url: address }]);
  const places = Object.keys(PAGES).map((file) => filled(`/${file}`.replace(/\/page\.tsx$/, ''), ids) || '/');
  for (place of [...places, '/patients?q=nobody', '/no-such-page']) {
    const answer = await page.goto(`${place}${place.includes('?') ? '&' : '?'}piece=${ids.pieceId}&change=${ids.personId}`, {
      waitUntil: 'load',
    });
    await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible();
    await page.evaluate(() => new Promise((settled) => requestIdleCallback(() => setTimeout(settled, 100))));
    if (!answer?.headers()['content-security-policy']?.includes("script-src-attr 'none'")) found.push(`${place} has no policy`);
    if (/<[^>]+\sstyle=/.test((await answer?.text()) ?? '')) found.push(`${place} has an inline style`);
    found.push(...(await screenFaults(page)).map((fault) => `${place} ${fault}`));
  }
  expect(found).toEqual([]);
});

type Said = { readonly status: number; readonly goesTo: string; readonly text: string };

type Entry = {
  readonly name: string;
  readonly needs: Needs;
  readonly changes: boolean;
  /** True of an address that names a record: to another clinic it is as if it were not there. */
  readonly namesRecord: boolean;
  readonly ask: (asker: Asker, ids: Readonly<Record<string, string>>) => Promise<Said>;
};

function isRefusal(entry: Entry, said: Said, why: 'nobody' | 'role' | 'clinic' | 'site'): boolean {
  if (why === 'site') return said.status >= 400;
  const secret = why === 'role' ? MARKERS.records : [...MARKERS.records, MARKERS.clinic];
  if (secret.some((marker) => said.text.includes(marker) || said.goesTo.includes(marker))) return false;
  if (why === 'nobody') return said.goesTo.startsWith('/sign-in');
  if (why === 'role') return said.goesTo.startsWith('/not-allowed');
  if (entry.changes) return !/"path":"\/share\//.test(said.text) && !Object.values(ids).some((id) => said.goesTo.includes(id));
  return entry.namesRecord ? said.status === 404 : said.status === 200;
}

function pages(): Entry[] {
  return Object.entries(PAGES).map(([file, needs]) => entryAt(file, needs, 'GET', file));
}

function routes(): Entry[] {
  return Object.entries(ROUTES).map(([name, needs]) => {
    const [method = '', file = ''] = name.split(' ');
    return entryAt(name, needs, method, file);
  });
}

function entryAt(name: string, needs: Needs, method: string, file: string): Entry {
  const place = `/${file}`.replace(/\/(page\.tsx|route\.ts)$/, '');
  const changes = method !== 'GET';
  const ask = async (asker: Asker, of: Readonly<Record<string, string>>) => {
    const query = `?${new URLSearchParams({ kind: 'visit', piece: of.pieceId ?? '', after: of.pieceId ?? '', change: of.personId ?? '' })}`;
    const body =
      method === 'POST' ? JSON.stringify({ kind: 'visit', version: 0, content: { form: {}, submissionId: crypto.randomUUID() } }) : null;
    return sent(filled(place, of) + query, asker, { method, body, ...(changes && { headers: { 'content-type': 'application/json' } }) });
  };
  return { name, needs, changes, namesRecord: place.includes('['), ask };
}

type Listed = { readonly filename: string; readonly exportedName: string; readonly workers: Readonly<Record<string, unknown>> };

/** Every server action by the id that the built program gives it, sent as React sends it: arguments as JSON, a form's boxes beside them. */
function actions(): Entry[] {
  const manifest = path.resolve(import.meta.dirname, '../../.next/server/server-reference-manifest.json');
  const listed = Object.entries((JSON.parse(fs.readFileSync(manifest, 'utf8')) as { node: Record<string, Listed> }).node);
  return Object.entries(ACTIONS).map(([name, [needs, given]]) => {
    const found = listed.find(([, { filename, exportedName }]) => `${filename} ${exportedName}` === `app/${name}`);
    if (!found) throw new Error(`the built program has no action ${name}`);
    const [id, { workers }] = found;
    const place = (Object.keys(workers)[0] ?? '').replace(/^app/, '').replace(/\/page$/, '');
    const ask = async (asker: Asker, of: Readonly<Record<string, string>>) =>
      sent(filled(place, of) || '/', asker, { method: 'POST', headers: { 'next-action': id }, body: argumentsOf(given, of) });
    return { name, needs, changes: true, namesRecord: false, ask };
  });
}

/** Boxes that let a form get as far as the records wherever one fits. */
const BOXES = { cause: 'x', answer: 'act', words: 'tried', reason: 'tried', kind: 'other', day: '2026-11-20', role: 'lead', revision: '1' };

function argumentsOf(given: Given, of: Readonly<Record<string, string>>): FormData | string {
  if (given === 'nothing') return '[]';
  const { patientId = '', visitId = '' } = of;
  if (given === 'values')
    return JSON.stringify([
      patientId,
      visitId,
      { expectedRevision: 1, submissionId: visitId, form: {}, reason: 'tried', leftOpen: [] },
      [],
    ]);
  const body = new FormData();
  for (const [box, value] of Object.entries({ ...BOXES, ...of, submissionId: crypto.randomUUID() })) body.append(`1_${box}`, value);
  body.append('0', given === 'form' ? '["$K1"]' : '[null,"$K1"]');
  return body;
}

async function sent(
  place: string,
  asker: Asker,
  how: { method: string; body: FormData | string | null; headers?: Record<string, string> },
): Promise<Said> {
  const from: Record<string, string> = asker.origin === 'none' ? {} : { origin: asker.origin ?? address };
  const headers = { ...how.headers, ...from, ...(asker.cookie && { cookie: asker.cookie }) };
  const answer = await fetch(address + place, { method: how.method, body: how.body, headers, redirect: 'manual' });
  const goesTo = (answer.headers.get('x-action-redirect') ?? answer.headers.get('location') ?? '').split(';')[0] ?? '';
  return { status: answer.status, goesTo: goesTo.replace(address, ''), text: await answer.text() };
}

function filled(place: string, of: Readonly<Record<string, string>>): string {
  return place.replace(/\[(?:\.\.\.)?(\w+)\]/g, (_, name: string) => of[name] ?? '00000000-0000-4000-8000-000000000000');
}

async function cookieOf(email: string): Promise<string> {
  const headers = { 'content-type': 'application/json', origin: address };
  const answer = await fetch(`${address}/api/auth/sign-in/email`, {
    method: 'POST',
    headers,
    body: JSON.stringify({ email, password: PASSWORD }),
  });
  expect(answer.status, email).toBe(200);
  return answer.headers
    .getSetCookie()
    .map((one) => one.split(';')[0])
    .join('; ');
}
