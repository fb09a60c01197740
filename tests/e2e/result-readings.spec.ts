import { expect, test } from '@playwright/test';
import { cell, finish, newSheet, typeDown } from './on-the-sheet';
import { rulesBroken } from './screen-faults';

test('single readings, fold height and both tapings stand on the result and beside the visit, with which one counts', async ({ page }) => {
  const address = await newSheet(page, 'RR-1');
  await page.getByRole('button', { name: 'Add a single reading' }).click();
  await page.getByLabel('heel–instep girth, in').fill('12 1/2');
  await page.getByLabel('Fold above floor, in').fill('26');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8', '8 7/8']);
  await page.getByRole('button', { name: 'Measure again' }).click();
  await page.getByRole('textbox', { name: /^Right leg, girth at 3 inches.*measured again/ }).fill('8 1/2');
  await finish(page);
  const also = page.getByRole('region', { name: 'Also measured at this visit' });
  await expect(also).toContainText('heel–instep girth');
  await expect(also).toContainText(/12 1\/2\sin/);
  await expect(also).toContainText(/Gluteal fold above the floor, right\s*26\sin/);
  await expect(also.getByRole('row', { name: /^right leg, 3\sin 8 3\/8\sin 8 1\/2\sin \+⅛\sin/ })).toBeVisible();
  await expect(also.getByRole('columnheader', { name: 'First, counts' })).toBeVisible();
  expect(await rulesBroken(page)).toEqual([]);
  await page.goto(address);
  await expect(page.getByRole('region', { name: 'Visits' })).toContainText(/heel–instep girth 12 1\/2\sin/);
  await expect(page.getByRole('region', { name: 'Visits' })).toContainText('1 place measured twice');
});
