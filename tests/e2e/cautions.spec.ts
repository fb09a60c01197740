import { expect, type Page, test } from '@playwright/test';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import { cell, finish, newSheet, signIn, typeDown } from './on-the-sheet';
import { DB_FILE } from './other-clinic';
import { PEOPLE } from './people';
import { screenFaults } from './screen-faults';

const card = (page: Page, title: string) => page.getByRole('group', { name: title, exact: true });
const keep = (page: Page) => page.getByRole('button', { name: 'Keep the answers' }).click();

test('a caution answered “yes” stops until it is answered anew with words; every answer is logged with its wording', async ({ page }) => {
  test.setTimeout(60_000);
  const address = await newSheet(page, 'CA-1');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8', '8 7/8']);
  await finish(page);
  await page.getByRole('link', { name: /^Cautions: 0 of \d+ answered\.$/ }).click();
  await expect(page).toHaveURL(`${address}/cautions`);
  await expect(page.getByRole('radio', { checked: true })).toHaveCount(0);
  const supply = card(page, 'Blood supply of the left leg');
  const skin = card(page, 'Fragile, open or leaking skin');
  await expect(supply).toContainText('Not asked yet.');

  await keep(page);
  await expect(page.getByRole('alert').filter({ hasText: 'Nothing is answered yet' })).toBeVisible();

  await card(page, 'Redness, heat, fever').getByRole('radio', { name: 'No', exact: true }).check();
  await supply.getByRole('radio', { name: 'No', exact: true }).check();
  await supply.getByLabel('Highest pressure planned').fill('32');
  await supply.getByLabel('Risk factors').selectOption('none of them');
  await supply.getByLabel('How it was checked').selectOption('index');
  await supply.getByLabel('Ankle–brachial index of this leg').fill('0.72');
  await supply.getByLabel('Checked on').fill('2026-06-15');
  await supply.getByLabel('Checked by').fill('KD');
  await skin.getByRole('radio', { name: 'Yes' }).check();
  await skin.getByLabel('In a few words').fill('heel, the size of a coin');
  await keep(page);
  await expect(supply).toContainText('An index of 0.72 is below 0.8, and more than 20 mmHg is planned.');
  await expect(skin.getByLabel('In a few words')).toHaveValue('heel, the size of a coin');
  await expect(card(page, 'Redness, heat, fever').getByRole('radio', { name: 'No', exact: true })).toBeChecked();
  await expect(supply.getByLabel('Ankle–brachial index of this leg')).toHaveValue('0.72');
  await expect(supply.getByLabel('How it was checked')).toHaveValue('index');

  await supply.getByRole('radio', { name: 'Yes' }).check();
  await keep(page);
  await expect(page.getByText(/^Cautions: 3 of \d+ answered, last on .*; 2 answered “yes”\.$/)).toBeVisible();
  const banner = page.getByRole('region', { name: /^Stop\. No order is sent and nothing is handed over/ });
  await expect(banner).toContainText('Blood supply of the left leg: Yes on');
  await expect(banner).toContainText('ankle–brachial index of this leg 0.72');
  const history = page.getByRole('region', { name: 'Answers so far 3' });
  await expect(history).toContainText(/Fragile, open or leaking skin: Yes\. R\. Adeyemi, .* heel, the size of a coin/);
  await history.getByText('Wording 2, as it was asked').first().click();
  await expect(history.locator('details[open] p')).toHaveText(
    /This tool does not diagnose\. Follow your local protocol and refer to the prescriber\.$/,
  );

  await page.goto(address);
  await expect(page.locator('[data-caution-line="standing"]')).toContainText('Fragile, open or leaking skin');
  await expect(page.locator('[data-caution-line="standing"]')).toContainText('Orders and hand-overs are held');
  await expect(page.getByRole('heading', { name: '2 cautions stand. Tell the prescriber.' })).toBeVisible();

  await page.goto(`${address}/cautions`);
  await skin.getByRole('radio', { name: 'No', exact: true }).check();
  await keep(page);
  await expect(skin).toContainText('Write in a few words what has changed.');
  await skin.getByLabel('What has changed').fill('closed, seen by the nurse');
  await keep(page);
  await expect(page.getByText(/; 1 answered “yes”\.$/)).toBeVisible();
  await expect(page.getByRole('region', { name: 'Answers so far 4' })).toContainText('closed, seen by the nurse');
});

test('a “no” greys once its days are over, and is asked again; the clinic sets the days', async ({ page }) => {
  const address = await newSheet(page, 'CA-2');
  const patientId = address.split('/').at(-1);
  const file = new BetterSqlite(DB_FILE);
  file
    .prepare(
      `insert into caution_answer (id, clinic_id, patient_id, day, card, card_version, answer, wording, "by", at)
       select 'old answer', clinic_id, id, '2025-01-10', 'heart-failure', '2', 'absent', 'w', 'somebody', 1736500000000 from patient where id = ?`,
    )
    .run(patientId);
  // Every write of the program counts so; what is remembered of a patient holds for one count.
  file.prepare('update work_state set changes = changes + 1 where patient_id = ?').run(patientId);
  file.close();
  await page.goto(`${address}/cautions`);
  const heart = card(page, 'Heart failure on record');
  await expect(page.getByRole('region', { name: 'Lapsed', exact: true })).toContainText('Heart failure on record');
  await expect(heart).toContainText('No on 10 Jan 2025. Lapsed on 10 Jan 2026.');
  await expect(heart).toHaveAttribute('data-standing', 'lapsed');
  await page.goto('/clinic/limits');
  await page.getByLabel('Days that “no heart failure” counts').fill('3650');
  await page.getByLabel('Why they are changed').fill('asked every ten years here');
  await page.getByRole('button', { name: 'Keep these limits' }).click();
  await expect(page.getByText('asked every ten years here').first()).toBeVisible();
  await page.goto(`${address}/cautions`);
  await expect(page.getByRole('region', { name: 'Answered', exact: true })).toContainText(/No, on 10 Jan 2025.*Heart failure on record/);
  await expect(page.getByText('Next lapses 8 Jan 2035: Heart failure on record')).toBeVisible();
  await page.goto('/clinic/limits');
  await page.getByLabel('Days that “no heart failure” counts').fill('');
  await page.getByLabel('Why they are changed').fill('back to a year');
  await page.getByRole('button', { name: 'Keep these limits' }).click();
  await expect(page.getByText('back to a year').first()).toBeVisible();
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
  await expect(card(page, 'Growth watch: hand and foot')).toHaveCount(0);
  await page.goto(`${address}/pieces/new`);
  await page.getByLabel('Piece', { exact: true }).fill('GW');
  await page.getByLabel('Reduction, %').fill('12.5');
  await page.getByRole('button', { name: 'Add the piece' }).click();
  await expect(page).toHaveURL(address);
  await page.goto(`${address}/cautions`);
  await expect(card(page, 'Growth watch: hand and foot')).toContainText('arch of hand or foot');
  await expect(card(page, 'Growth watch: hand and foot')).toContainText('The form of piece GW is not on record');
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const reader = await context.newPage();
  await reader.goto('/sign-in');
  await signIn(reader, PEOPLE.reader.email);
  await reader.waitForURL('/');
  await reader.goto(`${address}/cautions`);
  await expect(card(reader, 'Growth watch: hand and foot')).toBeVisible();
  await expect(reader.getByRole('button', { name: 'Keep the answers' })).toHaveCount(0);
  await context.close();
});

test('the cards break no rule of WCAG 2.2 A or AA that axe can see, in light and dark, and fit a phone', async ({ page }) => {
  await page.goto('/patients?q=Tess');
  await page
    .getByRole('link', { name: /Tess Ibarra/ })
    .first()
    .click();
  await page.waitForURL(/\/patients\/[0-9a-f-]{36}$/);
  await page.goto(`${new URL(page.url()).pathname}/cautions`);
  await keep(page);
  await expect(page.getByRole('alert').filter({ hasText: 'Nothing' })).toBeVisible();
  expect(await screenFaults(page, [1280, 390, 320])).toEqual([]);
});
