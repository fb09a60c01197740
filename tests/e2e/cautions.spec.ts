import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { cell, finish, newSheet, signIn, typeDown } from './on-the-sheet';
import { PEOPLE } from './people';

const card = (page: Page, title: string) => page.getByRole('group', { name: title, exact: true });
const keep = (page: Page) => page.getByRole('button', { name: 'Keep the answers' }).click();

async function axe(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']).analyze();
  return violations.map((one) => `${one.id} ${one.nodes[0]?.html}`);
}

test('a caution answered “yes” stands on top until it is answered anew with words; every answer is logged with its wording', async ({
  page,
}) => {
  test.setTimeout(60_000);
  const address = await newSheet(page, 'CA-1');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8', '8 7/8']);
  await finish(page);
  await page.getByRole('link', { name: /^Cautions: 0 of \d+ asked\.$/ }).click();
  await expect(page).toHaveURL(`${address}/cautions`);
  await expect(page.getByRole('radio', { checked: true })).toHaveCount(0);

  await keep(page);
  await expect(page.getByRole('alert').filter({ hasText: 'Nothing is answered yet' })).toBeVisible();

  await card(page, 'Redness, heat, fever').getByRole('radio', { name: 'No', exact: true }).check();
  await card(page, 'Blood supply to the leg').getByRole('radio', { name: 'No', exact: true }).check();
  await card(page, 'Blood supply to the leg').getByLabel('Lowest ankle–brachial index').fill('0.72');
  await card(page, 'Blood supply to the leg').getByLabel('Measured on').fill('2026-01-15');
  await card(page, 'Fragile, open or leaking skin').getByRole('radio', { name: 'Yes' }).check();
  await card(page, 'Fragile, open or leaking skin').getByLabel('In a few words').fill('heel, the size of a coin');
  await keep(page);
  await expect(card(page, 'Blood supply to the leg')).toContainText('0.72, is below 0.8');
  await expect(card(page, 'Fragile, open or leaking skin').getByLabel('In a few words')).toHaveValue('heel, the size of a coin');
  await expect(card(page, 'Redness, heat, fever').getByRole('radio', { name: 'No', exact: true })).toBeChecked();
  await expect(card(page, 'Blood supply to the leg').getByLabel('Lowest ankle–brachial index')).toHaveValue('0.72');

  await card(page, 'Blood supply to the leg').getByRole('radio', { name: 'Yes' }).check();
  await keep(page);
  await expect(page.getByText(/^Cautions: 3 of \d+ asked, last on .*; 2 to be referred\.$/)).toBeVisible();
  const history = page.getByRole('region', { name: 'Answers so far 3' });
  await expect(history).toContainText(/Fragile, open or leaking skin: Yes\. R\. Adeyemi, .* heel, the size of a coin/);
  await history.getByText('Wording 1, as it was asked').first().click();
  await expect(
    history.getByText(/This tool does not diagnose\. Follow your local protocol and refer to the prescriber\.$/).first(),
  ).toBeVisible();

  await page.goto(address);
  await expect(page.locator('.caution-line.standing')).toContainText('Fragile, open or leaking skin');
  await expect(page.getByRole('heading', { name: '2 cautions stand. Tell the prescriber.' })).toBeVisible();

  await page.goto(`${address}/cautions`);
  await card(page, 'Fragile, open or leaking skin').getByRole('radio', { name: 'No', exact: true }).check();
  await keep(page);
  await expect(card(page, 'Fragile, open or leaking skin')).toContainText('Write in a few words what has changed.');
  await card(page, 'Fragile, open or leaking skin').getByLabel('What has changed').fill('closed, seen by the nurse');
  await keep(page);
  await expect(page.getByText(/; 1 to be referred\.$/)).toBeVisible();
  await expect(page.getByRole('region', { name: 'Answers so far 4' })).toContainText('closed, seen by the nurse');
});

test('a growth-watch card is asked for a child whose garment may cover hand or foot, and a reader sees without answering', async ({
  page,
  browser,
}) => {
  await page.goto('/patients?q=Rui');
  await page
    .getByRole('link', { name: /Rui Castellan/ })
    .first()
    .click();
  await page.waitForURL(/\/patients\/[0-9a-f-]{36}$/);
  const address = new URL(page.url()).pathname;
  await page.goto(`${address}/cautions`);
  await expect(card(page, 'Fragile, open or leaking skin')).toBeVisible();
  // His sleeves have no foot. A piece added without its form may have one, so it is looked at.
  await expect(card(page, 'Growth watch')).toHaveCount(0);
  await page.goto(`${address}/pieces/new`);
  await page.getByLabel('Piece', { exact: true }).fill('GW');
  await page.getByLabel('Reduction, %').fill('12.5');
  await page.getByRole('button', { name: 'Add the piece' }).click();
  await expect(page).toHaveURL(address);
  await page.goto(`${address}/cautions`);
  await expect(card(page, 'Growth watch')).toContainText(/arch of the (hand|foot)/);
  await expect(card(page, 'Growth watch')).toContainText('The form of piece GW is not on record');
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const reader = await context.newPage();
  await reader.goto('/sign-in');
  await signIn(reader, PEOPLE.reader.email);
  await reader.waitForURL('/');
  await reader.goto(`${address}/cautions`);
  await expect(card(reader, 'Growth watch')).toBeVisible();
  await expect(reader.getByRole('button', { name: 'Keep the answers' })).toHaveCount(0);
  await context.close();
});

for (const colorScheme of ['light', 'dark'] as const) {
  test(`the cards break no rule of WCAG 2.2 A or AA that axe can see, at three widths, ${colorScheme}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme });
    await page.goto('/patients?q=Tess');
    await page
      .getByRole('link', { name: /Tess Ibarra/ })
      .first()
      .click();
    await page.waitForURL(/\/patients\/[0-9a-f-]{36}$/);
    await page.goto(`${new URL(page.url()).pathname}/cautions`);
    await keep(page);
    await expect(page.getByRole('alert').filter({ hasText: 'Nothing' })).toBeVisible();
    for (const width of [1280, 390, 320]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await axe(page), `width ${width}`).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth), `width ${width}`).toBeLessThanOrEqual(width);
    }
  });
}
