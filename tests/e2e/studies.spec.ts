import { expect, test } from '@playwright/test';
import { screenFaults } from './screen-faults';

test('a study is begun, a taping typed by digits and Enter, kept over a reload, saved once, and nothing earlier is shown', async ({
  page,
}) => {
  await page.goto('/clinic/studies/new');
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
  await expect(page.getByText('1 to 12 people.')).toBeVisible();
  await page.getByLabel('Who is taped').fill('P1 P2 P3');
  await page.getByLabel('R. Adeyemi').check();
  await page.getByLabel('K. Dunmore').check();
  await page.getByLabel('Girths on a limb').fill('5');
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
  await expect(page.getByText('Nothing is shown of any figure until all are typed.')).toBeVisible();
  await page.getByRole('link', { name: 'Begin taping' }).click();
  await expect(page.getByText('Your taping 1 of 6')).toBeVisible();
  const first = await page.getByRole('heading', { level: 1 }).textContent();
  const boxes = page.getByRole('textbox', { name: /girth at/ });
  await boxes.first().focus();
  for (const figure of ['9 1/4', '9.875', '11', '12 1/8']) {
    await page.keyboard.type(figure);
    await page.keyboard.press('Enter');
  }
  await expect(page.getByText('Kept; you can go on later.')).toBeVisible();
  await page.reload();
  await expect(boxes.nth(1)).toHaveValue('9.875');
  await boxes.nth(4).fill('x');
  await page.getByRole('button', { name: 'Save, and on to the next' }).click();
  await expect(page.getByText('Nothing was saved yet.')).toBeVisible();
  await expect(page.getByText('Say that the marks of the taping before are gone')).toBeVisible();
  expect(await screenFaults(page)).toEqual([]);
  await boxes.nth(4).fill('12 3/8');
  await page.getByLabel('Every mark of a taping before is off the skin').check();
  await page.getByRole('button', { name: 'Save, and on to the next' }).click();
  await expect(page.getByText('Your taping 2 of 6')).toBeVisible();
  expect(await page.getByRole('heading', { level: 1 }).textContent()).not.toBe(first);
  for (const box of await boxes.all()) await expect(box).toHaveValue('');
  await page.goto('/clinic/studies');
  await expect(page.getByText('1 of 12')).toBeVisible();
  await page
    .getByRole('row', { name: /1 of 12/ })
    .getByRole('link')
    .first()
    .click();
  await page.getByText('End it without a result').click();
  await page.getByRole('button', { name: 'End the study' }).click();
  await expect(page.getByText('Say in a few words why it is changed.')).toBeVisible();
  await page.getByLabel('Why it will not be finished').fill('K. Dunmore is away.');
  await page.getByRole('button', { name: 'End the study' }).click();
  await expect(page.getByText(/^Ended on .*: K\. Dunmore is away\./)).toBeVisible();
  await expect(page.getByRole('link', { name: 'Go on taping' })).toHaveCount(0);
});
