import { type Browser, type BrowserContext, expect, type Page, test } from '@playwright/test';
import { cell, finish, newSheet, saved, signIn, typeDown } from './on-the-sheet';
import { PEOPLE } from './people';
import { screenFaults } from './screen-faults';

const CODE = 'three plain words';
const FIRST = ['8 1/8', '8 3/8', '8 7/8'];
const LATER = ['9 5/8', '10 1/2', '11 3/8'];

/** Somebody signed in in a browser of their own, whose device was made ready with one patient's sheet on it. */
async function ready(
  browser: Browser,
  reference: string,
  email = PEOPLE.lead.email,
): Promise<{ context: BrowserContext; page: Page; address: string }> {
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const page = await context.newPage();
  await page.goto('/sign-in');
  await signIn(page, email);
  await page.waitForURL('/');
  await page.goto('/offline');
  await page.getByLabel('Code', { exact: true }).fill(CODE);
  await page.getByLabel('The same again').fill(CODE);
  await page.getByRole('button', { name: 'Keep them' }).click();
  await expect(page.getByLabel('Code of this device')).toBeVisible({ timeout: 60_000 });
  const address = await newSheet(page, reference);
  await expect.poll(() => copies(page), { timeout: 20_000 }).toBeGreaterThan(1);
  return { context, page, address };
}

/** Opens what the device keeps, with its code, at whatever address was asked for. */
async function unlock(page: Page, asked = '/', code = CODE): Promise<void> {
  await page.goto(asked);
  await page.getByLabel('Code of this device').fill(code);
  await page.getByRole('button', { name: 'Open', exact: true }).click();
}

/** Every name and every byte that this origin keeps on the device, as text, and the addresses of its kept files. */
function onDevice(page: Page): Promise<{ names: string[]; bytes: string; files: string[] }> {
  return page.evaluate(async () => {
    const names: string[] = [];
    let bytes = JSON.stringify({ ...localStorage, ...sessionStorage });
    for (const { name } of await indexedDB.databases()) {
      const database = await new Promise<IDBDatabase>((resolve) => {
        const asked = indexedDB.open(name ?? '');
        asked.onsuccess = () => resolve(asked.result);
      });
      for (const store of database.objectStoreNames) {
        const all = (kind: 'getAllKeys' | 'getAll') =>
          new Promise<unknown[]>((resolve) => {
            const asked = database.transaction(store).objectStore(store)[kind]() as IDBRequest<unknown[]>;
            asked.onsuccess = () => resolve(asked.result);
          });
        names.push(...(await all('getAllKeys')).map(String));
        for (const value of (await all('getAll')) as Record<string, unknown>[])
          for (const part of Object.values(value))
            bytes +=
              part instanceof ArrayBuffer || ArrayBuffer.isView(part)
                ? new TextDecoder('latin1').decode(part as ArrayBuffer)
                : String(part);
      }
      database.close();
    }
    const files: string[] = [];
    for (const cache of await caches.keys())
      for (const { url } of await (await caches.open(cache)).keys()) files.push(new URL(url).pathname);
    return { names, bytes, files };
  });
}

async function copies(page: Page): Promise<number> {
  return (await onDevice(page)).names.filter((name) => name === 'list' || /^[0-9a-f]{32}$/.test(name)).length;
}

/** How many visits a patient has. */
async function visitsOf(page: Page, address: string): Promise<number> {
  await page.goto(address);
  const paths = await page
    .locator(`a[href^="${address}/visits/"]`)
    .evaluateAll((all) => all.map((one) => (one as HTMLAnchorElement).pathname));
  return new Set(paths.filter((one) => /visits\/[0-9a-f-]{36}$/.test(one))).size;
}

/** Presses the finishing button, and once more where the sheet first tells of something left open. */
async function finishAway(page: Page): Promise<void> {
  const button = page.getByRole('button', { name: 'Finish visit' });
  await button.click();
  const note = page.getByText('again to leave it so.');
  const gone = button.waitFor({ state: 'detached', timeout: 4000 });
  await Promise.race([note.waitFor({ timeout: 4000 }), gone]).catch(() => undefined);
  if (await note.isVisible()) await button.click();
}

test('without a connection today and a sheet open by the code, take figures, are finished, and land once when it is back', async ({
  browser,
}) => {
  const { context, page, address } = await ready(browser, 'AW-whole');
  const kept = await onDevice(page);
  expect(kept.bytes).not.toMatch(/AW-whole|Sheet AW|1988-05-06|three plain words/);
  expect(kept.names.join(' ')).not.toContain(address.split('/').pop());
  expect(kept.files.filter((file) => file !== '/offline' && !file.startsWith('/_next/static/'))).toEqual([]);
  await context.setOffline(true);
  await unlock(page, '/');
  await expect(page).toHaveURL('/offline');
  await expect(page.getByText(/Kept on this device: as of \d\d:\d\d today\./)).toBeVisible();
  await expect(page.getByRole('region', { name: 'Overdue' })).toBeVisible();
  await page.getByRole('button', { name: 'Measure Sheet AW-whole' }).first().click();
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await expect(page.locator('[data-save-state]')).toContainText('3 figures kept on this device.');
  await page.goto('/patients');
  await expect(page).toHaveURL('/offline');
  await unlock(page, '/offline');
  await page.getByRole('button', { name: 'Measure Sheet AW-whole' }).first().click();
  await expect(cell(page, 'Right', '4½')).toHaveValue('8 7/8');
  await cell(page, 'Right', '6').focus();
  await typeDown(page, LATER);
  await finishAway(page);
  await expect(page.getByRole('region', { name: /Finished, waiting/ })).toContainText('Sheet AW-whole, finished at');
  expect((await onDevice(page)).bytes).not.toMatch(/9 5\/8|Sheet AW/);
  await context.setOffline(false);
  await expect(page.getByText('The visit of Sheet AW-whole, finished at')).toBeVisible({ timeout: 20_000 });
  await page.getByRole('link', { name: 'Open its result' }).click();
  await expect(page).toHaveURL(/\/visits\/[0-9a-f-]{36}$/);
  await expect(page.getByText('6 girths').first()).toBeVisible();
  expect(await visitsOf(page, address)).toBe(1);
  await context.close();
});

test('the sheet of a patient with earlier visits opens beside the last one, asks by it, and is finished', async ({ browser }) => {
  const { context, page, address } = await ready(browser, 'AW-history');
  await page.goto(`${address}/visits/new`);
  await page.getByRole('button', { name: 'Change', exact: true }).click();
  await page.locator('#box-day').fill(new Date(Date.now() - 60 * 86_400_000).toISOString().slice(0, 10));
  await page.getByRole('button', { name: 'Done', exact: true }).click();
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, [...FIRST, ...LATER]);
  await saved(page);
  await finish(page);
  await page.goto(address);
  await page.waitForLoadState('networkidle');
  await context.setOffline(true);
  await unlock(page, '/');
  await page.getByRole('button', { name: 'Measure Sheet AW-history' }).first().click();
  await expect(page.getByText('Set-up carried over from')).toBeVisible();
  await expect(page.getByRole('columnheader', { name: /at same place/ }).first()).toBeVisible();
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['18 1/8']);
  await expect(page.getByRole('button', { name: 'Question about this rung' })).toHaveCount(1);
  await finishAway(page);
  await expect(page.getByRole('region', { name: /Finished, waiting/ })).toContainText('Sheet AW-history');
  await context.setOffline(false);
  await expect(page.getByText('The visit of Sheet AW-history, finished at')).toBeVisible({ timeout: 20_000 });
  expect(await visitsOf(page, address)).toBe(2);
  await context.close();
});

test('an answer that is lost after the server kept the visit makes no second one', async ({ browser }) => {
  const { context, page, address } = await ready(browser, 'AW-lost');
  let sent = 0;
  await context.route('**/visits/new/finish', async (route) => {
    sent += 1;
    if (sent > 1) return route.continue();
    await route.fetch();
    await route.abort();
  });
  await unlock(page, '/offline');
  await page.getByRole('button', { name: 'Measure Sheet AW-lost' }).first().click();
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, [...FIRST, ...LATER]);
  await finishAway(page);
  await expect(page.getByRole('region', { name: /Finished, waiting/ })).toContainText('Sheet AW-lost');
  await page.goto('/');
  await expect(page.getByText('The visit of Sheet AW-lost, finished at')).toBeVisible({ timeout: 20_000 });
  expect(await visitsOf(page, address)).toBe(1);
  await context.close();
});

test('what the server asks about a visit that waited stands on its sheet again, every figure with it', async ({ browser }) => {
  const { context, page, address } = await ready(browser, 'AW-conflict');
  await context.setOffline(true);
  await unlock(page, '/');
  await page.getByRole('button', { name: 'Measure Sheet AW-conflict' }).first().click();
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, [...FIRST, ...LATER]);
  await finishAway(page);
  await expect(page.getByRole('region', { name: /Finished, waiting/ })).toBeVisible();
  const other = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const theirs = await other.newPage();
  await theirs.goto('/sign-in');
  await signIn(theirs, PEOPLE.second.email);
  await theirs.waitForURL('/');
  await theirs.goto(`${address}/visits/new`);
  await expect(cell(theirs, 'Right', '1½')).toBeVisible();
  await theirs.waitForLoadState('networkidle');
  await cell(theirs, 'Right', '1½').focus();
  await typeDown(theirs, [...FIRST, ...LATER]);
  await finishAway(theirs);
  await expect(theirs).toHaveURL(/\/visits\/[0-9a-f-]{36}$/);
  await context.setOffline(false);
  await expect(page.getByText('The visit of Sheet AW-conflict is not saved yet.')).toBeVisible({ timeout: 20_000 });
  await page.goto('/patients');
  await expect(page.getByText('The visit of Sheet AW-conflict is not saved yet.')).toBeVisible({ timeout: 20_000 });
  await page.getByRole('link', { name: 'Open the sheet' }).click();
  await expect(cell(page, 'Right', '9')).toHaveValue('11 3/8');
  await expect(page.getByText('is not saved yet.')).toHaveCount(0);
  await other.close();
  await context.close();
});

test('a wrong code opens nothing; signing out, and somebody else, take what is kept of patients away', async ({ browser }) => {
  const { context, page } = await ready(browser, 'AW-out');
  await unlock(page, '/offline', 'three other words');
  await expect(page.getByText('This is not the code.')).toBeVisible({ timeout: 20_000 });
  await page.goto('/');
  await page.getByText(', signed in').locator('..').click();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await expect(page).toHaveURL(/sign-in/);
  await expect.poll(() => copies(page)).toBe(0);
  expect((await onDevice(page)).names).not.toContain('lock');
  expect((await onDevice(page)).files).toEqual([]);
  await context.setOffline(true);
  await page.goto('/offline').catch(() => undefined);
  await expect(page.getByText('Code of this device')).toHaveCount(0);
  await context.setOffline(false);
  await context.close();
  const first = await ready(browser, 'AW-other');
  await first.context.clearCookies();
  await first.context.addCookies(await (await signedInAs(browser, PEOPLE.second.email)).cookies());
  await first.page.goto('/');
  await expect.poll(() => copies(first.page)).toBe(0);
  await first.context.close();
});

async function signedInAs(browser: Browser, email: string): Promise<BrowserContext> {
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const page = await context.newPage();
  await page.goto('/sign-in');
  await signIn(page, email);
  await page.waitForURL('/');
  return context;
}

test('what was kept yesterday is not opened as today’s, and a page left alone closes itself', async ({ browser }) => {
  const { context, page } = await ready(browser, 'AW-day');
  await context.setOffline(true);
  await page.clock.install({ time: new Date(Date.now() + 60_000) });
  await unlock(page, '/');
  await expect(page.getByText('Kept on this device')).toBeVisible({ timeout: 20_000 });
  await page.clock.fastForward(16 * 60_000);
  await expect(page.getByLabel('Code of this device')).toBeVisible();
  await page.clock.setSystemTime(new Date(Date.now() + 36 * 3_600_000));
  await page.getByLabel('Code of this device').fill(CODE);
  await page.getByRole('button', { name: 'Open', exact: true }).click();
  await expect(page.getByText('What this device keeps is of another day')).toBeVisible({ timeout: 20_000 });
  await context.close();
});

test('the page without a connection is whole in light and dark and at 320 px', async ({ browser }) => {
  const { context, page } = await ready(browser, 'AW-look');
  await context.setOffline(true);
  await unlock(page, '/');
  await expect(page.getByText('Kept on this device')).toBeVisible({ timeout: 20_000 });
  expect(await screenFaults(page)).toEqual([]);
  await context.close();
});
