import { expect, type Page, test } from '@playwright/test';
import { ready, signIn } from './on-the-sheet';
import { PEOPLE } from './people';
import { screenFaults } from './screen-faults';

test.describe.configure({ mode: 'serial' });

let patient = '';
let draft = '';
let signed = '';

async function fillIn(page: Page): Promise<void> {
  await page.getByLabel('Payer', { exact: true }).fill('County plan');
  await page.getByLabel('Diagnosis, in your words').fill('Burn scar of the left leg after grafting.');
  await page.getByLabel('Prescriber', { exact: true }).fill('Dr P. Lindqvist');
  await page.getByRole('checkbox', { name: 'size of a child' }).check();
  await page.getByLabel('Primary reason').selectOption('change in condition');
  await page.getByLabel('Effect of not replacing it').fill('The scar would be held unevenly.');
  await page.getByLabel('Credentials').fill('Occupational therapist');
}

test('the draft stands on the record; a refused letter keeps everything typed', async ({ page }) => {
  await page.goto('/patients?q=Lia');
  await page.getByRole('link', { name: 'Lia Fontane' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Lia Fontane' })).toBeVisible();
  patient = new URL(page.url()).pathname;
  await page.getByRole('region', { name: 'Pieces' }).getByRole('link', { name: 'Piece 2', exact: true }).click();
  await page.getByRole('link', { name: 'Replacement letter' }).click();
  await expect(page.getByLabel('The piece it replaces')).toHaveValue(/^Piece 2, left leg, .* First worn on /);
  draft = page.url();
  await expect(page.getByRole('table', { name: /^Circumference, in, at the same places/ }).getByRole('row')).not.toHaveCount(1);
  await page.getByLabel('The piece it replaces').fill('Piece 2, torn at the heel.');
  await page.getByLabel('Primary reason').selectOption('lost');
  await page.getByRole('checkbox', { name: 'scar area' }).check();
  await page.getByRole('button', { name: 'Show the letter' }).click();
  await expect(page.getByText('Type the day it happened.')).toBeVisible();
  await expect(page.getByText('Type the credentials of the person who signs.')).toBeVisible();
  await expect(page.getByLabel('The piece it replaces')).toHaveValue('Piece 2, torn at the heel.');
  await expect(page.getByLabel('Primary reason')).toHaveValue('lost');
  await expect(page.getByRole('checkbox', { name: 'scar area' })).toBeChecked();
  await expect(page.getByRole('article')).toHaveCount(0);
});

test('a letter is shown, signed only as shown, and listed with the patient', async ({ page }) => {
  await page.goto(draft);
  await fillIn(page);
  await page.getByRole('button', { name: 'Show the letter' }).click();
  const sheet = page.getByRole('article');
  await expect(sheet.getByText('Primary reason: change in condition.')).toBeVisible();
  await expect(sheet.getByText(/exceeds measurement error|does not exceed measurement error/)).toBeVisible();
  await page.getByLabel('Credentials').fill('Occupational therapist, certified');
  await page.getByRole('button', { name: 'I have read it: sign and freeze' }).click();
  await expect(page.getByText('The letter has changed since it was shown.')).toBeVisible();
  await page.getByRole('button', { name: 'I have read it: sign and freeze' }).click();
  await page.waitForURL(/\/letters\/[0-9a-f-]{36}$/);
  signed = page.url();
  await expect(page.getByRole('article').getByText('Occupational therapist, certified')).toBeVisible();
  await page.goto(patient);
  const letters = page.getByRole('region', { name: 'Replacement letters' });
  await expect(letters.getByRole('listitem')).toHaveCount(1);
  await expect(letters.getByText(/signed .* by R\. Adeyemi/)).toBeVisible();
});

test('a correction of the visit does not reach the signed letter; a new draft has it', async ({ page }) => {
  await page.goto(signed);
  const before = await page.getByRole('article').textContent();
  await page.goto(patient);
  const visit = await page.getByRole('region', { name: 'Visits' }).getByRole('link').nth(1).getAttribute('href');
  await page.goto(`${visit}/correct`);
  await ready(page);
  await page.getByLabel(/^Weight/).fill('103.3');
  const see = page.getByRole('button', { name: 'See what changes' });
  const head = page.getByRole('heading', { name: 'What this correction changes' });
  await see.click();
  const note = page.getByText('again to leave it so.');
  await expect(head.or(note).first()).toBeVisible();
  if (await note.isVisible()) await see.click();
  await page.getByLabel('Why it is corrected').fill('scale read again');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await page.waitForURL(`**${visit}`);
  await page.goto(signed);
  expect(await page.getByRole('article').textContent()).toBe(before);
  expect(before).not.toContain('103.3');
  await page.goto(draft);
  await expect(page.getByRole('table', { name: /^Weight and height/ })).toContainText('103.3 lb');
});

test('a letter is at most three sides, the report at most two, tagged, without screen furniture', async ({ page }) => {
  for (const [place, most] of [
    [signed, 3],
    [`${patient}/report`, 2],
  ] as const)
    for (const format of ['A4', 'Letter']) {
      await page.goto(place);
      const pdf = (await page.pdf({ format, preferCSSPageSize: false, tagged: true })).toString('latin1');
      expect(pdf.match(/\/Type\s*\/Page\b/g)?.length, `${place} ${format}`).toBeLessThanOrEqual(most);
      expect(pdf.includes('/StructTreeRoot'), 'tagged').toBe(true);
    }
  await page.emulateMedia({ media: 'print' });
  for (const place of [signed, `${patient}/report`]) {
    await page.goto(place);
    await expect(page.getByRole('article')).toBeVisible();
    await expect(page.getByRole('button', { name: 'Print' })).toBeHidden();
    await expect(page.getByRole('link', { name: 'Back to the patient' })).toBeHidden();
  }
});

test('the report says what changed with its error, the pieces and the protocol line', async ({ page }) => {
  await page.goto(patient);
  await page.getByRole('link', { name: 'Progress report' }).click();
  const sheet = page.getByRole('article');
  await expect(sheet.getByText(/give or take .* smallest real change/).first()).toBeVisible();
  await expect(sheet.getByRole('table', { name: /^Volume with its 95/ })).toBeVisible();
  await expect(sheet.getByRole('row', { name: /^2 left leg/ })).toBeVisible();
  await expect(sheet.getByText('Follow your local protocol and the prescriber.')).toBeVisible();
});

test('who only reads sees letters but writes none; nobody signed in sees nothing', async ({ browser }) => {
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const page = await context.newPage();
  await page.goto(signed);
  await expect(page).toHaveURL(/sign-in/);
  await signIn(page, PEOPLE.reader.email);
  await expect(page.getByRole('article')).toBeVisible();
  await page.goto(draft);
  await expect(page.getByRole('button', { name: 'Show the letter' })).toHaveCount(0);
  await context.close();
});

test('letter and report break no rule that axe can see, in light and dark, and fit 320 px', async ({ page }) => {
  for (const place of [draft, signed, `${patient}/report`]) {
    await page.goto(place);
    expect(await screenFaults(page), place).toEqual([]);
  }
});
