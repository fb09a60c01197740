import { expect, type Page, test } from '@playwright/test';
import { alive, cell, newSheet, typeDown } from './on-the-sheet';

/** Seven girths of a made-up leg; the last one's digits are exchanged. */
const SLIP = ['8 1/8', '8 3/8', '8 7/8', '9 5/8', '10 1/2', '11 3/8', '21 1/8'];
/** Words that only the second part of the sheet holds. */
const MARK = 'Paste named measures';
const question = (page: Page) => page.locator('[data-question]:visible');
const missing = (page: Page) => page.getByRole('status').filter({ hasText: 'Questions are not asked just now' });

/** Holds the second part back until it is let go; `lose` has every try fail until then. */
async function heldBack(page: Page, how: 'wait' | 'lose') {
  let letGo = () => {};
  const free = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  let isFree = false;
  let tries = 0;
  await page.route('**/_next/static/chunks/*.js', async (route) => {
    const response = await route.fetch();
    const text = await response.text();
    if (!text.includes(MARK) || isFree) return route.fulfill({ response });
    tries += 1;
    if (how === 'lose') return route.abort();
    await free;
    return route.fulfill({ response });
  });
  const release = () => {
    isFree = true;
    letGo();
  };
  return { release, tries: () => tries };
}

/** Opens a sheet whose second part does not come, without waiting for it. */
async function openHeldBack(page: Page, reference: string, how: 'wait' | 'lose') {
  const address = await newSheet(page, reference);
  const held = await heldBack(page, how);
  await page.goto(`${address}/visits/new`, { waitUntil: 'commit' });
  await alive(page.getByRole('table', { name: /Girths of the/ }));
  return { address, ...held };
}

test('typing waits for nothing: figures typed before the questions have come are asked about when they come', async ({ page }) => {
  const held = await openHeldBack(page, 'SP-late', 'wait');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, SLIP);
  await expect(cell(page, 'Right', '10½')).toHaveValue('21 1/8');
  await expect.poll(held.tries).toBe(1);
  await expect(question(page)).toHaveCount(0);
  await expect(missing(page)).toHaveCount(0);
  held.release();
  await expect(question(page)).toBeVisible();
});

test('the questions come with the page: a connection that is lost before the first figure takes none away', async ({ page, context }) => {
  await newSheet(page, 'SP-offline');
  await context.setOffline(true);
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, SLIP);
  await expect(question(page)).toBeVisible();
  await page.getByRole('button', { name: 'Read back' }).click();
  await expect(page.getByRole('group', { name: 'Figure read back' })).toBeFocused();
  await context.setOffline(false);
});

test('where they cannot be loaded the sheet says so, the server asks, and they come when the connection is back', async ({ page }) => {
  const held = await openHeldBack(page, 'SP-lost', 'lose');
  await expect(missing(page)).toBeVisible();
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, SLIP);
  await expect(question(page)).toHaveCount(0);
  const finish = page.getByRole('button', { name: 'Finish visit' });
  await finish.click();
  const note = page.getByRole('alert').filter({ hasText: 'again to leave it so' });
  await expect(note).toContainText('has no girth at');
  await finish.click();
  await expect(note).toContainText('Nothing is saved yet');
  await expect(question(page)).toBeVisible();
  await page.reload({ waitUntil: 'commit' });
  await expect(missing(page)).toBeVisible();
  await expect(question(page)).toHaveCount(0);
  held.release();
  await page.evaluate(() => window.dispatchEvent(new Event('online')));
  await expect(question(page)).toBeVisible();
  await expect(missing(page)).toHaveCount(0);
});

test('a question that the server asked without them can be left so', async ({ page }) => {
  await openHeldBack(page, 'SP-server', 'lose');
  await expect(missing(page)).toBeVisible();
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, SLIP);
  await page.getByLabel('Weight, lb').fill('9');
  const finish = page.getByRole('button', { name: 'Finish visit' });
  const note = page.getByRole('alert').filter({ hasText: 'again to leave it so' });
  await finish.click();
  await expect(note).toContainText('has no girth at');
  await finish.click();
  await expect(note).toContainText('Nothing is saved yet');
  await finish.click();
  await expect(page).toHaveURL(/\/visits\/[0-9a-f-]{36}$/, { timeout: 15_000 });
});
