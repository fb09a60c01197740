import { expect, test } from '@playwright/test';
import { cell, finish, newSheet, ready, typeDown } from './on-the-sheet';

const ARM = ['6 1/4', '7', '7 7/8', '8 5/8', '9 1/8', '9 1/4', '9 5/8', '10 1/4'];
const LARGER = ['6 7/8', '7 3/4', '8 5/8', '9 1/2', '10', '10 1/8', '10 5/8', '11 1/4'];
const LEG = ['8 1/8', '8 3/8', '8 7/8', '9 5/8', '10 1/2', '11 3/8', '12 1/8', '12 5/8', '12 7/8', '12 3/4'];

test('a first visit of a swollen arm says the difference between the arms at once, in ml and per cent with its error', async ({ page }) => {
  const address = await newSheet(page, 'NM-arm', 'arm');
  for (const [side, figures] of [
    ['Right', ARM],
    ['Left', LARGER],
  ] as const) {
    await page.locator('input[data-look]').first().waitFor();
    await page
      .getByRole('textbox', { name: new RegExp(`^${side} arm, girth at`) })
      .first()
      .focus();
    await typeDown(page, figures);
  }
  await finish(page);
  const figures = /give or take \d+\sml: \+\d+\.\d\s% \(±\s\d+\.\d\s%\)/i;
  const saidFirst = async () => {
    await expect(page.locator('[data-excess] .judgement')).toHaveText(/^The left arm is \d+\sml larger than the right\.$/);
    await expect(page.locator('[data-excess]').getByText(figures)).toBeVisible();
  };
  await saidFirst();
  await page.goto(address);
  await saidFirst();
  await page.goto(`${address}/report`);
  await expect(page.getByText(/The left arm is \d+\sml larger than the right, give or take/).first()).toBeVisible();
  await expect(page.getByText(figures).first()).toBeVisible();
});

test('a height with two digits exchanged is asked about beside its box, set right by one press, and kept by another', async ({ page }) => {
  const address = await newSheet(page, 'NM-tall');
  await page.locator('#box-height').fill('66');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, LEG);
  await finish(page);
  await page.goto(`${address}/visits/new`);
  await ready(page);
  await page.locator('#box-height').fill('96');
  await expect(
    page.getByText(/Height 96\sin\? From .* about 66\sin is expected\. With another tens digit it would be 66\sin\./),
  ).toBeVisible();
  await page.getByRole('button', { name: /^Change to 66/ }).click();
  await expect(page.locator('#box-height')).toHaveValue(/^66/);
  await page.locator('#box-height').fill('96');
  await page.getByRole('button', { name: /^Keep Height/ }).click();
  await expect(page.getByText(/Height 96\sin\?/)).toHaveCount(0);
});

test('starting an order and leaving it silences nothing: the proposal stays, marked as begun, until the order is saved', async ({
  page,
}) => {
  await page.goto('/patients?q=Bram');
  await page.getByRole('link', { name: 'Bram Oster' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Bram Oster' })).toBeVisible();
  const own = page.url();
  const next = page.getByRole('region', { name: 'Next' });
  const act = next.locator('[data-prompt-answers] form:first-child button').first();
  const title = (await next.locator('h3').first().textContent()) ?? '';
  await act.click();
  await page.waitForURL((url) => url.href !== own);
  await page.goto(own);
  await expect(next.locator('h3', { hasText: title }).first()).toBeVisible();
  await expect(next.getByText('Begun, not done yet.').first()).toBeVisible();
  await expect(next.getByText('Nothing is asked today')).toHaveCount(0);
  await page.goto('/?q=Oster');
  await expect(page.getByRole('link', { name: /Bram Oster/ }).first()).toBeVisible();
});

test('the day of a visit is corrected: the order made to it finds it under its new day and keeps its questions', async ({ page }) => {
  const address = await newSheet(page, 'NM-day');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, LEG);
  await finish(page);
  const visit = new URL(page.url()).pathname;
  await page.goto(`${address}/orders/new`);
  await page.getByLabel('Garment', { exact: true }).selectOption({ label: 'calf sleeve' });
  await page.getByLabel('Why it is ordered').selectOption('first piece');
  await page.getByLabel('Reduction, %').fill('15');
  await page.getByLabel('Expected life, days').fill('180');
  await page.getByLabel('Making and delivery, days').fill('21');
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await page.waitForURL(/\/orders\/[0-9a-f-]{36}$/);
  const order = page.url();
  await page.goto(`${visit}/correct`);
  await ready(page);
  await page
    .getByRole('button', { name: /Change/ })
    .first()
    .click();
  await page.locator('#box-day').fill('2026-11-02');
  await page.getByRole('button', { name: 'See what changes' }).click();
  const note = page.getByText('again to leave it so.');
  const head = page.getByRole('heading', { name: 'What this correction changes' });
  await expect(head.or(note).first()).toBeVisible();
  if (await note.isVisible()) await page.getByRole('button', { name: 'See what changes' }).click();
  await page.getByLabel('Why it is corrected').fill('the day was wrong');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await expect(page).toHaveURL(new RegExp(`${visit}$`));
  await page.goto(order);
  await expect(page.getByText(/No ladder of the/)).toHaveCount(0);
  await expect(page.getByText('Measured', { exact: true }).locator('..')).toContainText('2 Nov 2026');
});
