import { type Browser, type BrowserContext, expect, test } from '@playwright/test';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import { alive, cell, newSheet, saved, signIn, typeDown } from './on-the-sheet';
import { DB_FILE } from './other-clinic';
import { PEOPLE } from './people';
import { rulesBroken } from './screen-faults';

const MINUTE = 60_000;

/** Somebody signed in in a browser of their own, whose pages' clock can be moved. */
async function signedIn(browser: Browser): Promise<BrowserContext> {
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const page = await context.newPage();
  await page.goto('/sign-in');
  await signIn(page, PEOPLE.lead.email);
  await page.waitForURL('/');
  await context.clock.install();
  await page.reload();
  await alive(page.getByRole('searchbox'));
  return context;
}

/** Sets a moment of the newest session of the lead, in the server's file. */
function setOfNewest(column: 'last_used_at' | 'expires_at', at: number): void {
  const file = new BetterSqlite(DB_FILE);
  file.pragma('busy_timeout = 5000');
  const newest = 'select session.id from session join user on user.id = user_id where email = ? order by session.created_at desc limit 1';
  file.prepare(`update session set ${column} = ? where id = (${newest})`).run(at, PEOPLE.lead.email);
  file.close();
}

const lastUsed = (msAgo: number) => setOfNewest('last_used_at', Date.now() - msAgo);

test('a warning comes in time, is told and reached by keyboard, and one button goes on, for every window', async ({ browser }) => {
  const context = await signedIn(browser);
  const [page] = context.pages();
  const other = await context.newPage();
  await other.goto('/patients');
  await alive(other.getByRole('searchbox'));
  if (!page) throw new Error('no page');
  lastUsed(13.4 * MINUTE);
  await context.clock.fastForward('13:05');
  for (const one of [page, other]) await expect(one.getByRole('alertdialog', { name: 'Still there?' })).toBeVisible();
  await expect(page.getByText(/It ends at \d\d:\d\d unless you stay\./)).toHaveAttribute('role', 'alert');
  await expect(page.getByRole('button', { name: 'Stay signed in' })).toBeFocused();
  expect(await rulesBroken(page)).toEqual([]);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('alertdialog')).toHaveCount(0);
  await context.clock.fastForward('00:11');
  await expect(other.getByRole('alertdialog')).toHaveCount(0);
  await page.goto('/patients');
  await expect(page).toHaveURL('/patients');
  await context.close();
});

test('the focus stays in a box where somebody types, and typing on is staying', async ({ browser }) => {
  const context = await signedIn(browser);
  const [page] = context.pages();
  if (!page) throw new Error('no page');
  const box = page.getByRole('searchbox').first();
  lastUsed(13.4 * MINUTE);
  await context.clock.fastForward('12:55');
  await box.focus();
  await context.clock.fastForward('00:10');
  await expect(page.getByRole('alertdialog')).toBeVisible();
  await expect(box).toBeFocused();
  await box.press('m');
  await expect(page.getByRole('alertdialog')).toHaveCount(0);
  await context.close();
});

test('the end of the shift is told as well, and no button puts it off', async ({ browser }) => {
  const context = await signedIn(browser);
  const [page] = context.pages();
  if (!page) throw new Error('no page');
  setOfNewest('expires_at', Date.now() + 1.6 * MINUTE);
  await context.clock.fastForward('13:05');
  const warning = page.getByRole('alertdialog', { name: 'Your shift is ending' });
  await expect(warning).toContainText('finish what you are typing, then sign in again');
  await expect(warning.getByRole('button')).toHaveCount(0);
  await context.close();
});

test('nobody there: the page is covered, nothing answers, and after signing in again the half-typed ladder goes on', async ({
  browser,
}) => {
  test.setTimeout(60_000);
  const context = await signedIn(browser);
  const [page] = context.pages();
  if (!page) throw new Error('no page');
  await newSheet(page, 'ID-sheet');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8']);
  await page.keyboard.type('8 7');
  await saved(page);
  lastUsed(15.1 * MINUTE);
  await context.clock.fastForward('13:05');
  await context.clock.fastForward('00:11');
  const cover = page.getByRole('dialog', { name: 'You have been signed out' });
  await expect(cover).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(cover).toBeVisible();
  expect((await page.request.get('/patients', { maxRedirects: 0 })).status()).toBe(307);
  const [again] = await Promise.all([context.waitForEvent('page'), cover.getByRole('link', { name: 'Sign in in a new window' }).click()]);
  await signIn(again, PEOPLE.lead.email);
  await again.waitForURL('/');
  await context.clock.fastForward('00:11');
  await expect(cover).toHaveCount(0);
  await expect(cell(page, 'Right', '1½')).toHaveValue('8 1/8');
  await expect(cell(page, 'Right', '4½')).toHaveValue('8 7');
  await cell(page, 'Right', '4½').fill('8 7/8');
  await page.keyboard.press('Enter');
  await saved(page);
  await context.close();
});
