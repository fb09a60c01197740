import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { type BuiltServer, freePort, startBuilt } from '../built-server';
import { cell, finish, newSheet, ready, saved, signIn, typeDown } from './on-the-sheet';
import { PEOPLE } from './people';

const FIRST = ['8 1/8', '8 3/8', '8 7/8'];

test('a reload in mid-ladder brings every figure back', async ({ page }) => {
  await newSheet(page, 'DR-reload');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await page.getByLabel('Height, in').fill('66');
  await saved(page);
  await page.reload();
  await ready(page);
  await expect(cell(page, 'Right', '4½')).toHaveValue('8 7/8');
  await expect(page.getByLabel('Height, in')).toHaveValue('66');
  await cell(page, 'Right', '6').focus();
  await typeDown(page, ['9 5/8']);
  await saved(page);
  await finish(page);
  await page.goto(`${new URL(page.url()).pathname.split('/visits/')[0]}/visits/new`);
  await expect(cell(page, 'Right', '1½')).toHaveValue('');
});

test('leaving keeps the draft, and the browser warns while anything is only in the window', async ({ page }) => {
  const address = await newSheet(page, 'DR-leave');
  await page.route('**/draft', (route) => route.abort());
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await expect(page.locator('[data-save-state]')).toContainText(/Not on the server yet\. 3 figures kept on this device\. Trying again\./);
  let warned = false;
  page.on('dialog', (dialog) => {
    warned = dialog.type() === 'beforeunload';
    return dialog.dismiss();
  });
  await page.evaluate(() => window.location.assign('/patients')).catch(() => undefined);
  await expect.poll(() => warned).toBe(true);
  await expect(cell(page, 'Right', '4½')).toHaveValue('8 7/8');
  await page.unrouteAll({ behavior: 'wait' });
  await saved(page);
  await page.getByRole('link', { name: 'Leave, keep the draft' }).click();
  await expect(page).toHaveURL(address);
  await page.goto(`${address}/visits/new`);
  await expect(cell(page, 'Right', '4½')).toHaveValue('8 7/8');
});

test('an answer lost on the way is not taken for somebody else’s draft', async ({ page }) => {
  await newSheet(page, 'DR-lost');
  await page.route('**/draft', async (route) => {
    await route.fetch();
    await route.abort();
  });
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await expect(page.locator('[data-save-state]')).toContainText('Not on the server yet');
  await page.unrouteAll({ behavior: 'wait' });
  await typeDown(page, ['9 5/8']);
  await saved(page);
  await expect(page.getByText('newer draft')).toHaveCount(0);
});

test('signing out in mid-ladder loses nothing: figures wait in the window and are kept after signing in again', async ({ browser }) => {
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const page = await context.newPage();
  await page.goto('/sign-in');
  await signIn(page, PEOPLE.lead.email);
  await page.waitForURL('/');
  const address = await newSheet(page, 'DR-out');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await saved(page);
  const elsewhere = await context.newPage();
  await elsewhere.goto('/patients');
  await elsewhere.locator('header details summary').click();
  await elsewhere.getByRole('button', { name: 'Sign out' }).click();
  await elsewhere.waitForURL(/sign-in/);
  await cell(page, 'Right', '6').focus();
  await typeDown(page, ['9 5/8', '10 1/2']);
  await expect(page.locator('[data-save-state]')).toContainText('you are signed out. 2 figures kept on this device.');
  await page.getByRole('button', { name: 'Finish visit' }).click();
  await page.getByRole('button', { name: 'Finish visit' }).click();
  await expect(page.getByText('Nothing typed is lost.')).toBeVisible();
  await expect(cell(page, 'Right', '7½')).toHaveValue('10 1/2');
  await elsewhere.goto('/sign-in');
  await signIn(elsewhere, PEOPLE.lead.email);
  await elsewhere.waitForURL('/');
  await saved(page);
  await page.goto(`${address}/visits/new`);
  await expect(cell(page, 'Right', '7½')).toHaveValue('10 1/2');
  await context.close();
});

test('two windows of one person: the second sees both drafts and chooses; nothing is mixed', async ({ page, context }) => {
  const address = await newSheet(page, 'DR-two');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await saved(page);
  const other = await context.newPage();
  await other.goto(`${address}/visits/new`);
  await ready(other);
  await cell(other, 'Right', '6').focus();
  await typeDown(other, ['9 5/8']);
  await saved(other);
  await cell(page, 'Left', '1½').focus();
  await typeDown(page, ['8']);
  const choice = page.getByRole('alert').filter({ hasText: 'The server holds a newer draft of yours' });
  await expect(choice.getByRole('table', { name: 'They differ in 2 boxes.' })).toBeVisible();
  await expect(choice.getByRole('row', { name: /^Right leg, 6 in 9 5\/8 –/ })).toBeVisible();
  await expect(choice.getByRole('row', { name: /^Left leg, 1 1\/2 in – 8/ })).toBeVisible();
  await expect(page.locator('[data-save-state]')).toContainText('two drafts differ');
  await choice.getByRole('button', { name: 'Take the draft on the server' }).click();
  await expect(cell(page, 'Right', '6')).toHaveValue('9 5/8');
  await expect(cell(page, 'Left', '1½')).toHaveValue('');
});

test('one submission sent twice makes one visit', async ({ page }) => {
  const address = await newSheet(page, 'DR-double');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await saved(page);
  const button = page.getByRole('button', { name: 'Finish visit' });
  await button.click();
  await expect(page.getByText('again to leave it so.')).toBeVisible();
  const sent: { url: string; headers: Record<string, string>; body: Buffer | null }[] = [];
  await page.route('**/visits/new', async (route) => {
    const request = route.request();
    if (request.method() === 'POST') sent.push({ url: request.url(), headers: await request.allHeaders(), body: request.postDataBuffer() });
    await route.continue();
  });
  await button.dblclick();
  await expect(page).toHaveURL(/\/visits\/[0-9a-f-]{36}$/, { timeout: 15_000 });
  const saving = sent[0];
  if (!saving) throw new Error('nothing was sent');
  const headers = Object.fromEntries(Object.entries(saving.headers).filter(([name]) => !name.startsWith(':') && name !== 'content-length'));
  for (let time = 0; time < 3; time++) await page.request.post(saving.url, { headers, data: saving.body ?? '', maxRedirects: 0 });
  await page.unroute('**/visits/new');
  await page.goto(address);
  const visits = new Set(
    await page
      .locator(`a[href*="${address}/visits/"]`)
      .evaluateAll((links) => links.map((link) => link.getAttribute('href')).filter((href) => /visits\/[0-9a-f-]{36}$/.test(href ?? ''))),
  );
  expect(visits.size).toBe(1);
});

test.describe('a server of its own', () => {
  const root = path.resolve(import.meta.dirname, '../..');
  const file = path.join(root, 'test-results/browser/restarted.db');
  const env = {
    DATABASE_URL: '',
    DB_FILE: file,
    AUTH_SECRET: 'only for browser tests, signs nothing real',
  };
  let server: BuiltServer | undefined;

  test.afterAll(async () => {
    await server?.end('SIGKILL');
    for (const end of ['', '-wal', '-shm']) fs.rmSync(file + end, { force: true });
  });

  test('the server stopped and started in mid-ladder: figures wait in the window and are kept when it is back', async ({ browser }) => {
    test.setTimeout(90_000);
    expect(
      spawnSync(process.execPath, ['--import', 'tsx', 'tests/e2e/seed.ts'], { cwd: root, env: { ...process.env, ...env } }).status,
    ).toBe(0);
    const port = await freePort();
    server = await startBuilt(env, port);
    const context = await browser.newContext({ baseURL: `http://127.0.0.1:${port}`, storageState: { cookies: [], origins: [] } });
    const page = await context.newPage();
    await page.goto('/sign-in');
    await signIn(page, PEOPLE.lead.email);
    await page.waitForURL('/');
    const address = await newSheet(page, 'DR-server');
    await cell(page, 'Right', '1½').focus();
    await typeDown(page, FIRST);
    await saved(page);
    await server.end('SIGKILL');
    await typeDown(page, ['9 5/8', '10 1/2']);
    await expect(page.locator('[data-save-state]')).toContainText('Not on the server yet. 2 figures kept on this device. Trying again.', {
      timeout: 15_000,
    });
    server = await startBuilt(env, port);
    await typeDown(page, ['11 3/8']);
    await saved(page);
    await page.goto(`${address}/visits/new`);
    for (const [place, girth] of [
      ['1½', '8 1/8'],
      ['6', '9 5/8'],
      ['7½', '10 1/2'],
      ['9', '11 3/8'],
    ] as const)
      await expect(cell(page, 'Right', place)).toHaveValue(girth);
    await finish(page);
    await context.close();
  });
});
