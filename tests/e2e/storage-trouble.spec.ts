import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import { type BuiltServer, runScript, signInAt, startBuilt } from '../built-server';
import { PASSWORD, PEOPLE } from './people';

/** How long another process holds the lock; the campaign asks for a minute. */
const LOCK_SECONDS = Number(process.env.LOCK_SECONDS ?? 6);
/** Room on the small disk, MB: the clinic of this test takes three. */
const DISK_MB = 8;

const folder = path.resolve(import.meta.dirname, '../../test-results/storage-trouble');
const file = path.join(folder, 'clinic.db');
const filler = path.join(folder, 'filler');
const env = { DATABASE_URL: '', DB_FILE: file, AUTH_SECRET: 'only for browser tests, signs nothing real' };

let server: BuiltServer;
let patientId = '';
let isSmallDisk = false;

test.use({ storageState: { cookies: [], origins: [] } });

test.beforeAll(async () => {
  spawnSync('umount', [folder]);
  fs.rmSync(folder, { recursive: true, force: true });
  fs.mkdirSync(folder, { recursive: true });
  isSmallDisk = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${DISK_MB}m`, 'tmpfs', folder]).status === 0;
  const seeded = JSON.parse(runScript('tests/faults/seed-a-few-patients.ts', env)) as { patientIds: string[] };
  patientId = seeded.patientIds[0] ?? '';
  server = await startBuilt(env);
});

test.afterAll(async () => {
  await server.end('SIGKILL');
  if (isSmallDisk) spawnSync('umount', [folder]);
});

/** Holds the write lock of the file as another program would; gives it back by the function that comes back. */
function holdLock(): () => void {
  const other = new BetterSqlite(file);
  other.exec('begin immediate');
  return () => void other.exec('rollback').close();
}

/** Leaves no room: a disk that is really full where one can be mounted, else the lock of another program. */
function leaveNoRoom(): () => void {
  if (!isSmallDisk) return holdLock();
  const out = fs.openSync(filler, 'w');
  for (const size of [65_536, 4096, 512, 1]) {
    try {
      for (;;) fs.writeSync(out, Buffer.alloc(size));
    } catch (error) {
      expect(error).toHaveProperty('code', 'ENOSPC');
    }
  }
  fs.closeSync(out);
  return () => fs.rmSync(filler);
}

/** The middle of the times in which pages answer, ms, four readers at once. */
async function readingMs(cookie: string, seconds: number): Promise<number> {
  const times: number[] = [];
  const until = performance.now() + seconds * 1000;
  const readers = [`/patients/${patientId}`, '/patients', '/', '/clinic/limits'].map(async (place) => {
    while (performance.now() < until) {
      const started = performance.now();
      const answer = await fetch(server.address + place, { headers: { cookie }, redirect: 'manual' });
      await answer.text();
      expect(answer.status, place).toBe(200);
      times.push(performance.now() - started);
    }
  });
  await Promise.all(readers);
  return times.sort((one, other) => one - other)[Math.floor(times.length / 2)] ?? 0;
}

async function signIn(page: Page): Promise<void> {
  await page.goto(`${server.address}/sign-in`);
  await page.getByLabel('E-mail').fill(PEOPLE.lead.email);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL(`${server.address}/`);
}

test('while another process holds the write lock, pages read as fast as ever, sessions go on, and a save comes through after it', async () => {
  test.setTimeout(60_000 + LOCK_SECONDS * 3000);
  const cookie = await signInAt(server.address, PEOPLE.lead.email, PASSWORD);
  await readingMs(cookie, 3);
  const usual = await readingMs(cookie, LOCK_SECONDS);
  const letGo = holdLock();
  const locked = await readingMs(cookie, LOCK_SECONDS);
  const started = performance.now();
  const refused = signInAt(server.address, PEOPLE.lead.email, PASSWORD).catch((error: Error) => error.message);
  const beside = await readingMs(cookie, 3);
  expect(await refused).toMatch(/not signed in: 503 .*nothing can be saved at the moment/);
  expect(performance.now() - started, 'a write gives up in time').toBeLessThan(15_000);
  letGo();
  process.stdout.write(
    `pages, ms: usual ${usual.toFixed(1)}, lock held ${locked.toFixed(1)}, beside a waiting write ${beside.toFixed(1)}\n`,
  );
  expect(locked).toBeLessThanOrEqual(2 * usual);
  expect(beside).toBeLessThanOrEqual(2 * usual);
  expect(await signInAt(server.address, PEOPLE.lead.email, PASSWORD)).toContain('session_token');
});

test('with no room left every page reads with a banner, a save is refused in words, and what was typed is put back', async ({ page }) => {
  test.setTimeout(90_000);
  await signIn(page);
  await page.goto(`${server.address}/patients/new`);
  const form = page.locator('main form');
  await form.getByLabel('Reference').fill('HL-9001');
  await form.getByLabel('Name').fill('Ines Calder');
  await form.getByLabel('Date of birth').fill('2016-02-03');
  await form.getByLabel('Diagnosis group').selectOption({ index: 1 });
  await form.getByLabel('No table').check();
  await form.getByLabel('Right leg').check();
  await form.getByLabel('English').check();
  const makeRoom = leaveNoRoom();
  await form.locator('button[type=submit]').last().click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('This could not be saved', { timeout: 15_000 });
  await expect(page.getByText('What you typed is still here.')).toBeVisible();
  await page.getByRole('button', { name: 'Back to what I typed' }).click();
  await expect(form.getByLabel('Reference')).toHaveValue('HL-9001');
  await expect(form.getByLabel('Name')).toHaveValue('Ines Calder');
  await expect(form.getByLabel('Date of birth')).toHaveValue('2016-02-03');
  for (const ticked of ['No table', 'Right leg']) await expect(form.getByLabel(ticked)).toBeChecked();
  const reading = await page.context().newPage();
  for (const place of ['/', '/patients', `/patients/${patientId}`, '/clinic', '/clinic/limits', '/pieces']) {
    const answer = await reading.goto(server.address + place);
    expect(answer?.status(), place).toBe(200);
    await expect(reading.getByText('nothing can be saved').first(), place).toBeVisible();
  }
  makeRoom();
  await form.locator('button[type=submit]').last().click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Ines Calder', { timeout: 15_000 });
  await reading.goto(`${server.address}/patients?q=HL-9001`);
  await expect(reading.getByRole('link', { name: 'Ines Calder' }).first()).toBeVisible();
  await expect(reading.getByText('nothing can be saved')).toHaveCount(0);
});
