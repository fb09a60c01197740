import { expect, type Page, test } from '@playwright/test';
import { PASSWORD, PEOPLE } from './people';

test.use({ storageState: { cookies: [], origins: [] } });

/** More stops than any screen has before the one that is looked for. */
const MOST_STOPS = 90;

/** Presses Tab until what is focused has this role and name; nothing is clicked. */
async function tabTo(
  page: Page,
  role: 'link' | 'button' | 'textbox' | 'combobox' | 'checkbox' | 'radio' | 'searchbox',
  name: string | RegExp,
) {
  const wanted = page.getByRole(role, { name, exact: typeof name === 'string' });
  for (let stop = 0; stop < MOST_STOPS; stop++) {
    if (await wanted.evaluateAll((all) => all.some((one) => one === document.activeElement))) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`${MOST_STOPS} times Tab did not reach the ${role} ${name}`);
}

test('signing in, a new patient, a ladder and its result, by keys alone', async ({ page }) => {
  test.setTimeout(90_000);
  const keys = page.keyboard;
  await page.goto('/sign-in');
  await tabTo(page, 'textbox', 'E-mail');
  await keys.type(PEOPLE.lead.email);
  await keys.press('Tab');
  await keys.type(PASSWORD);
  await keys.press('Enter');
  await expect(page).toHaveURL('/');

  await tabTo(page, 'link', 'New patient');
  await keys.press('Enter');
  await expect(page).toHaveURL('/patients/new');
  await tabTo(page, 'textbox', 'Reference');
  await keys.type('KEY-1');
  await tabTo(page, 'textbox', 'Name');
  await keys.type('Keya Marsh');
  await keys.press('Tab');
  await keys.type('17051980');
  await tabTo(page, 'combobox', 'Diagnosis group');
  await keys.type('lympho');
  await tabTo(page, 'radio', 'Girls’ and women’s');
  await keys.press('Space');
  await tabTo(page, 'checkbox', 'Left leg');
  await keys.press('Space');
  await tabTo(page, 'button', 'Add patient');
  await keys.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Keya Marsh');

  await tabTo(page, 'link', 'New visit');
  await keys.press('Enter');
  await expect(page).toHaveURL(/\/visits\/new$/);
  await tabTo(page, 'textbox', /^Left leg, girth at/);
  for (const girth of ['9', '9 3/4', '11', '12 1/2', '13 1/4', '13 1/2']) {
    await keys.type(girth);
    await keys.press('Enter');
  }
  await tabTo(page, 'button', /Finish visit/);
  await keys.press('Enter');
  await expect(page.getByText('again to leave it so.')).toBeVisible();
  await tabTo(page, 'button', /Finish visit/);
  await keys.press('Enter');
  await expect(page).toHaveURL(/\/visits\/[0-9a-f-]{36}$/, { timeout: 20_000 });
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Keya Marsh');
});
