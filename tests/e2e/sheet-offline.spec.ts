import { type Browser, expect, type Page, test } from '@playwright/test';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import { cell, finish, newSheet, ready, saved, signIn, typeDown } from './on-the-sheet';
import { DB_FILE } from './other-clinic';
import { PEOPLE } from './people';

const FIRST = ['8 1/8', '8 3/8', '8 7/8'];
const LATER = ['9 5/8', '10 1/2', '11 3/8'];
const PLACES = ['1½', '3', '4½', '6', '7½', '9'];

/** Somebody signed in in a browser of their own. */
async function inOwnBrowser(browser: Browser, email: string): Promise<Page> {
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const page = await context.newPage();
  await page.goto('/sign-in');
  await signIn(page, email);
  await page.waitForURL('/');
  return page;
}

/** The window dies at once, with no word to the page: one that is closed may still send what it holds on its way out. */
async function crash(page: Page): Promise<void> {
  const dead = page.waitForEvent('crash');
  const session = await page.context().newCDPSession(page);
  session.send('Page.crash').catch(() => undefined);
  await dead;
  await page.close();
}

/** Everything that the browser's own store holds, as text. */
function storedText(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const asked = indexedDB.open('rungwise', 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore('drafts');
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });
    const all = await new Promise<{ bytes: ArrayBuffer }[]>((resolve) => {
      const asked = database.transaction('drafts').objectStore('drafts').getAll();
      asked.onsuccess = () => resolve(asked.result);
    });
    database.close();
    return all.map(({ bytes }) => new TextDecoder('latin1').decode(bytes));
  });
}

async function holds(page: Page, figures: readonly string[]): Promise<void> {
  for (const [index, figure] of figures.entries()) await expect(cell(page, 'Right', PLACES[index] ?? '')).toHaveValue(figure);
}

test('offline in the middle: the window dies, and what was typed without a connection is there when the sheet is opened again', async ({
  browser,
}) => {
  const page = await inOwnBrowser(browser, PEOPLE.lead.email);
  const context = page.context();
  const address = await newSheet(page, 'OF-cut');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await saved(page);
  await expect(page.locator('[data-save-state]')).toContainText(/Saved \d\d:\d\d, on the server/);
  expect(await storedText(page)).toEqual([]);
  await context.setOffline(true);
  await typeDown(page, LATER);
  await expect(page.locator('[data-save-state]')).toContainText('Not on the server yet. 3 figures kept on this device. Trying again.');
  const [kept, ...others] = await storedText(page);
  expect(others).toEqual([]);
  expect(kept).not.toMatch(/9 5\/8|OF-cut|right/);
  await crash(page);
  await context.setOffline(false);
  const again = await context.newPage();
  await again.goto(`${address}/visits/new`);
  await holds(again, [...FIRST, ...LATER]);
  await expect(again.locator('[data-save-state]')).toContainText('Three figures brought back from this device.');
  await saved(again);
  await expect.poll(() => storedText(again)).toEqual([]);
  await again.reload();
  await holds(again, [...FIRST, ...LATER]);
  await finish(again);
  await context.close();
});

test('back online in the same window, a reload brings every figure', async ({ page, context }) => {
  await newSheet(page, 'OF-reload');
  await cell(page, 'Right', '1½').focus();
  await context.setOffline(true);
  await typeDown(page, FIRST);
  await expect(page.locator('[data-save-state]')).toContainText('3 figures kept on this device.');
  await page.route('**/draft', (route) => route.abort());
  await context.setOffline(false);
  page.on('dialog', (dialog) => dialog.accept());
  await page.reload();
  await holds(page, FIRST);
  await page.unrouteAll({ behavior: 'wait' });
  await saved(page);
});

test('signed out by idleness with figures on the device: nobody else gets them, and the same person does', async ({ browser }) => {
  const page = await inOwnBrowser(browser, PEOPLE.lead.email);
  const address = await newSheet(page, 'OF-idle');
  await page.route('**/draft', (route) => route.abort());
  page.on('dialog', (dialog) => dialog.accept());
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await expect(page.locator('[data-save-state]')).toContainText('3 figures kept on this device.');
  const file = new BetterSqlite(DB_FILE);
  file.pragma('busy_timeout = 5000');
  const mine = 'select session.id from session join user on user.id = user_id where email = ? order by session.created_at desc limit 1';
  file.prepare(`update session set last_used_at = ? where id = (${mine})`).run(Date.now() - 15.1 * 60_000, PEOPLE.lead.email);
  file.close();
  await page.goto(`${address}/visits/new`);
  await expect(page).toHaveURL(/sign-in/);
  await signIn(page, PEOPLE.second.email);
  await page.waitForURL((url) => !url.pathname.startsWith('/sign-in'));
  await page.goto(`${address}/visits/new`);
  await ready(page);
  await expect(cell(page, 'Right', '1½')).toHaveValue('');
  await page.context().clearCookies();
  await page.unrouteAll({ behavior: 'wait' });
  await page.goto('/sign-in');
  await signIn(page, PEOPLE.lead.email);
  await page.waitForURL('/');
  await page.goto(`${address}/visits/new`);
  await holds(page, FIRST);
  await saved(page);
  await expect.poll(() => storedText(page)).toEqual([]);
  await page.context().close();
});

test('Back and Forward show the sheet as it is now; no other window is spoken of, and Finish works', async ({ page }) => {
  await newSheet(page, 'OF-back');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await saved(page);
  await page.getByRole('navigation').getByRole('link', { name: 'Patients' }).first().click();
  await expect(page).toHaveURL(/\/patients$/);
  await page.goBack();
  await holds(page, FIRST);
  await page.goForward();
  await expect(page).toHaveURL(/\/patients$/);
  await page.goBack();
  await holds(page, FIRST);
  await ready(page);
  await cell(page, 'Right', '6').focus();
  await typeDown(page, LATER);
  await saved(page);
  await expect(page.getByText('newer draft')).toHaveCount(0);
  await finish(page);
  const visit = page.url();
  await page.goBack();
  await ready(page);
  await expect(cell(page, 'Right', '1½')).toHaveValue('');
  await expect(page.getByRole('alert').filter({ hasText: 'draft' })).toHaveCount(0);
  await page.goForward();
  await expect(page).toHaveURL(visit);
});

test('a sheet left open in a window while the visit was finished in another leads to the saved visit', async ({ page, context }) => {
  const address = await newSheet(page, 'OF-done');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, FIRST);
  await saved(page);
  const other = await context.newPage();
  await other.goto(`${address}/visits/new`);
  await ready(other);
  await finish(other);
  await cell(page, 'Right', '6').focus();
  await typeDown(page, ['9 5/8']);
  const choice = page.getByRole('alert').filter({ hasText: 'This visit is saved already.' });
  await choice.getByRole('link', { name: 'Open the saved visit' }).click();
  await expect(page).toHaveURL(other.url());
});
