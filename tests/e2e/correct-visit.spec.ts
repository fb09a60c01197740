import { expect, type Page, test } from '@playwright/test';
import { cell, finish, newSheet, ready, saved, signIn, typeDown } from './on-the-sheet';
import { PEOPLE } from './people';
import { rulesBroken } from './screen-faults';

const LEG = ['8 1/8', '8 3/8', '8 7/8', '9 5/8', '10 1/2', '11 3/8', '12 1/8', '12 5/8', '12 7/8', '12 3/4'];

/** A visit of one leg, and the address of its correction. */
async function visitToCorrect(page: Page, reference: string): Promise<string> {
  await newSheet(page, reference);
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, LEG);
  await finish(page);
  return `${new URL(page.url()).pathname}/correct`;
}

async function see(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'See what changes' }).click();
  const head = page.getByRole('heading', { name: 'What this correction changes' });
  const note = page.getByText('again to leave it so.');
  await expect(head.or(note).first()).toBeVisible();
  if (await note.isVisible()) await page.getByRole('button', { name: 'See what changes' }).click();
  await expect(head).toBeVisible();
}

test('a correction shows what it changes, needs a reason, and earlier states stay with who and when', async ({ page }) => {
  const address = await visitToCorrect(page, 'CO-one');
  await page.goto(address);
  await ready(page);
  await expect(cell(page, 'Right', '9')).toHaveValue('11 3/8');
  await cell(page, 'Right', '9').fill('11 1/2');
  await see(page);
  await expect(page.getByRole('row', { name: /^Right leg, 9 in 11 3\/8 11 1\/2/ })).toBeVisible();
  await expect(page.getByRole('row', { name: /^Volume, right leg/ })).toBeVisible();
  expect(await rulesBroken(page)).toEqual([]);
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await expect(page.getByText('Type why the visit is corrected.')).toBeVisible();
  await page.getByLabel('Why it is corrected').fill('read off the wrong edge of the tape');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await expect(page).toHaveURL(address.replace('/correct', ''));
  await page.goto(address);
  await expect(cell(page, 'Right', '9')).toHaveValue('11 1/2');
  const states = page.getByRole('region', { name: /States of this visit/ });
  await expect(states.getByRole('listitem')).toHaveCount(2);
  await expect(states).toContainText(/Correction 1 by R\. Adeyemi, .*: read off the wrong edge of the tape/);
  await expect(states.getByRole('row', { name: /Right leg, 9 in 11 3\/8 11 1\/2/ })).toBeVisible();
});

test('two editors: the second sees both versions side by side and chooses; nothing is overwritten', async ({ page, browser }) => {
  const address = await visitToCorrect(page, 'CO-two');
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const second = await context.newPage();
  await second.goto('/sign-in');
  await signIn(second, PEOPLE.guessed.email);
  await second.waitForURL('/');
  await second.goto(address);
  await ready(second);
  await cell(second, 'Right', '3').fill('8 1/2');
  await page.goto(address);
  await ready(page);
  await cell(page, 'Right', '9').fill('11 1/2');
  await see(page);
  await page.getByLabel('Why it is corrected').fill('first editor');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await expect(page).toHaveURL(address.replace('/correct', ''));
  await see(second);
  await second.getByLabel('Why it is corrected').fill('second editor');
  await second.getByRole('button', { name: 'Save the correction' }).click();
  const both = second.getByRole('alert').filter({ hasText: 'R. Adeyemi saved this visit at' });
  await expect(both).toContainText('Yours is kept too. Compare them and choose.');
  await expect(both.getByRole('row', { name: /Right leg, 3 in 8 3\/8 8 1\/2/ })).toBeVisible();
  await expect(both.getByRole('row', { name: /Right leg, 9 in 11 1\/2 11 3\/8/ })).toBeVisible();
  await both.getByRole('button', { name: 'Save mine after it' }).click();
  await expect(second).toHaveURL(address.replace('/correct', ''));
  await second.goto(address);
  await expect(second.getByRole('region', { name: /States of this visit/ }).getByRole('listitem')).toHaveCount(3);
  await context.close();
});

test('a draft of a correction survives a reload, and a reader may not correct', async ({ page, browser }) => {
  const address = await visitToCorrect(page, 'CO-draft');
  await page.goto(address);
  await ready(page);
  await cell(page, 'Right', '9').fill('11 1/2');
  await saved(page);
  await page.reload();
  await ready(page);
  await expect(cell(page, 'Right', '9')).toHaveValue('11 1/2');
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const reader = await context.newPage();
  await reader.goto('/sign-in');
  await signIn(reader, PEOPLE.reader.email);
  await reader.waitForURL('/');
  await reader.goto(address);
  await expect(reader).toHaveURL('/not-allowed');
  await context.close();
});
