import { expect, type Page, test } from '@playwright/test';
import { cell, finish, newSheet, ready } from './on-the-sheet';
import { rulesBroken } from './screen-faults';

const sheet = (page: Page) => page.getByRole('region', { name: 'Hand, foot, trunk, head' });

async function addMeasure(page: Page, name: string): Promise<void> {
  const form = page.getByRole('form', { name: 'Add a named measure' });
  await form.getByLabel('Name of the measure').fill(name);
  await form.getByLabel('Part', { exact: true }).selectOption('head');
  await form.getByLabel('Kind').selectOption('girth');
  await form.getByLabel('Taken', { exact: true }).selectOption('middle');
  await form.getByLabel('Plausible from, mm').fill('300');
  await form.getByLabel('Error of one reading, mm').fill('4');
  await form.getByLabel('How it is taken', { exact: true }).fill('Level over both cheeks.');
  await form.getByLabel('Where that is laid down').fill('Our leaflet 3.');
  await form.getByRole('button', { name: 'Add the measure' }).click();
  await expect(form.getByText('Type 1 to 2500 mm.')).toBeVisible();
  await form.getByLabel('Plausible to, mm').fill('800');
  await form.getByRole('button', { name: 'Add the measure' }).click();
  await expect(page.getByRole('row', { name: new RegExp(`^${name}`) })).toBeVisible();
}

test('a lead adds a measure and a form; the sheet asks about it, an order is made to it, retired it is offered no more', async ({
  page,
}) => {
  test.setTimeout(180_000);
  const name = `cheek girth ${test.info().retry}`;
  const hood = `legging with band ${test.info().retry}`;
  await page.goto('/clinic/parts');
  await addMeasure(page, name);
  const form = page.getByRole('form', { name: 'Add a form of garment' });
  await form.getByLabel('Name of the garment').fill(hood);
  await form.getByLabel('Made to ladders, or to measures alone').selectOption('leg');
  await form.getByLabel('Days to make and deliver').fill('17');
  await form.getByLabel('Days of wear').fill('120');
  await form.getByText(/^head, \d/).click();
  await form.getByRole('checkbox', { name, exact: true }).check();
  await form.getByRole('button', { name: 'Add the form' }).click();
  await expect(page.getByRole('row', { name: new RegExp(`^${hood} leg ${name} 17 to make`) })).toBeVisible();
  expect(await rulesBroken(page)).toEqual([]);

  const patient = await newSheet(page, 'OP-1');
  await sheet(page).getByRole('button', { name: 'Hand, foot, trunk, head' }).click();
  await sheet(page).getByRole('button', { name: 'Head', exact: true }).click();
  const box = page.getByRole('textbox', { name: new RegExp(`^${name}, inches`, 'i') });
  await box.fill('35');
  await page.keyboard.press('Enter');
  await expect(sheet(page)).toContainText('This clinic expects 11');
  await sheet(page)
    .getByRole('button', { name: /^Keep 35/ })
    .click();
  await cell(page, 'Left', '1½').fill('8 1/8');
  await finish(page);
  await expect(page.getByRole('row', { name: new RegExp(`^${name} kept by .* 35`, 'i') })).toBeVisible();

  await page.goto(`${patient}/orders/new`);
  await page.getByLabel('Garment', { exact: true }).selectOption({ label: hood });
  await expect(page.getByText('Empty: 120, as this form was added.')).toBeVisible();
  await page.getByLabel('Covers from').fill('ankle crease');
  await page.getByLabel('Covers to').fill('1 1/2 in');
  await page.getByLabel('Reduction, %').fill('15');
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await expect(page.getByRole('heading', { name: new RegExp(`Order 1: ${hood}`) })).toBeVisible();
  await expect(page.getByText('meant to last 120 days from first wear')).toBeVisible();
  await expect(page.getByText('17 days to make and deliver')).toBeVisible();
  await expect(page.getByRole('row', { name: new RegExp(`^${name} 35 in`, 'i') })).toContainText('Level over both cheeks.');

  await page.goto('/clinic/parts');
  for (const one of [name, hood]) {
    await page.getByRole('button', { name: `Retire ${one}` }).click();
    await expect(page.getByRole('button', { name: `Ask again ${one}` })).toBeVisible();
  }
  await page.goto(`${patient}/orders/new`);
  await expect(page.getByLabel('Garment', { exact: true }).getByRole('option', { name: `leg: ${hood}` })).toHaveCount(0);
  await page.goto(`${patient}/visits/new`);
  await ready(page);
  await expect(box).toHaveCount(0);
  await page.goto(patient);
  await expect(page.getByRole('row', { name: new RegExp(`^${name} kept by .* 35`, 'i') })).toBeVisible();
});
