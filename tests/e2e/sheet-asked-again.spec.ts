import { expect, type Page, test } from '@playwright/test';
import { cell, finish, newSheet, ready, signIn, typeDown } from './on-the-sheet';
import { PEOPLE } from './people';

const LEG = ['8 1/8', '8 3/8', '8 7/8', '9 5/8', '10 1/2', '11 3/8', '12 1/8', '12 5/8', '12 7/8', '12 3/4'];
const note = (page: Page) => page.getByRole('alert').filter({ hasText: 'Nothing is saved yet: read beside what is on record now' });

test('a page that was opened before another visit was saved is asked what that visit raises; kept, it saves', async ({ page, browser }) => {
  test.setTimeout(60_000);
  const address = await newSheet(page, 'SV-stale');
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const second = await context.newPage();
  await second.goto('/sign-in');
  await signIn(second, PEOPLE.guessed.email);
  await second.waitForURL('/');
  await second.goto(`${address}/visits/new`);
  await ready(second);
  await cell(second, 'Right', '1½').focus();
  await typeDown(second, LEG);
  await finish(second);
  await context.close();

  // The same ten figures as the visit just saved: odd only for somebody who knows of it.
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, LEG);
  await expect(page.locator('[data-question]:visible')).toHaveCount(0);
  await finishOnce(page);
  await expect(note(page)).toContainText('2 questions are open');
  await expect(page.locator('[data-question]:visible')).toBeVisible();
  await expect(page).toHaveURL(`${address}/visits/new`);
  await expect(cell(page, 'Right', '6')).toHaveValue('9 5/8');
  await expect(cell(page, 'Right', '15')).toHaveValue('12 3/4');
  // Two visits of one day are told apart on purpose.
  await page.getByRole('radio', { name: 'Measured again, to see how well the tape repeats' }).check();
  await cell(page, 'Right', '15').focus();
  await page.keyboard.press('k');
  await expect(page.locator('[data-question]:visible')).toHaveCount(0);
  await finish(page);
  await expect(page.getByText(/, 1 questions? answered/)).toBeVisible();
});

test('a sheet that does not say which questions it showed cannot store a doubt unasked; nothing typed is lost', async ({ page }) => {
  const address = await newSheet(page, 'SV-skips');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8', '8 7/8', '9 5/8', '10 1/2', '11 3/8', '21 1/8']);
  await page.route('**/visits/new', async (route) => {
    const sent = route.request().postData() ?? '';
    if (route.request().method() !== 'POST' || !route.request().headers()['next-action']) return route.continue();
    return route.continue({ postData: sent.replace(/\["0\/right\/[^\]]*\]/, '[]') });
  });
  await finishOnce(page);
  await expect(page.getByRole('alert').filter({ hasText: 'One question is open.' })).toBeVisible();
  await finishOnce(page);
  await expect(note(page)).toContainText('one question is open');
  await expect(page).toHaveURL(`${address}/visits/new`);
  await expect(cell(page, 'Right', '10½')).toHaveValue('21 1/8');
  await page.unroute('**/visits/new');
  await finishOnce(page);
  await expect(page).toHaveURL(/\/visits\/[0-9a-f-]{36}$/, { timeout: 15_000 });
});

async function finishOnce(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Finish visit' }).click();
}
