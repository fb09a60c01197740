import { expect, type Page, test } from '@playwright/test';

async function fillIn(page: Page, reference: string) {
  await page.getByLabel('Reference', { exact: true }).fill(reference);
  await page.getByLabel('Name', { exact: true }).fill('Nadia Brook');
  await page.getByLabel('Date of birth').fill('2014-05-06');
  await page.getByLabel('Diagnosis group').selectOption('lymphoedema');
  await page.getByRole('radio', { name: 'Girls’ and women’s' }).check();
  await page.getByRole('checkbox', { name: 'Left leg' }).check();
  await page.getByRole('radio', { name: 'Español' }).check();
}

const add = (page: Page) => page.getByRole('button', { name: 'Add patient' }).click();

test('a patient is added, has a page of their own, and is found by name and by reference', async ({ page }) => {
  await page.goto('/patients');
  await page.getByRole('link', { name: 'New patient' }).click();
  await fillIn(page, 'HL-0301');
  await add(page);
  await expect(page).toHaveURL(/\/patients\/[0-9a-f-]{36}$/);
  for (const words of ['brook', '0301']) {
    await page.goto('/patients');
    await page.getByRole('searchbox').fill(words);
    await page.keyboard.press('Enter');
    await expect(page.getByText('1 patient matches')).toBeVisible();
    await expect(page.getByRole('row', { name: /Nadia Brook/ })).toContainText('left leg');
  }
});

test('a new patient’s referral is written down right after', async ({ page }) => {
  await page.goto('/patients/new');
  await page.getByRole('button', { name: 'Add, and write the referral down' }).click();
  await expect(page.locator('[aria-invalid="true"]').first()).toBeVisible();
  await fillIn(page, 'HL-0309');
  await page.getByRole('button', { name: 'Add, and write the referral down' }).click();
  await expect(page).toHaveURL(/\/patients\/[0-9a-f-]{36}\/work$/);
  await page.getByLabel('Prescriber', { exact: true }).fill('Dr. Amberly');
  await page.getByLabel('Cause').fill('secondary, after an operation');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(page.getByText('Dr. Amberly').first()).toBeVisible();
});

test('details are corrected with a reason, every state stays with who and why', async ({ page }) => {
  await page.goto('/patients/new');
  await fillIn(page, 'HL-0303');
  await add(page);
  await page.getByRole('link', { name: 'Details' }).click();
  await page.getByLabel('Date of birth').fill('2014-06-05');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await expect(page.getByText('Say in a few words why it is changed.').first()).toBeVisible();
  await expect(page.getByLabel('Date of birth')).toHaveValue('2014-06-05');
  await page.getByLabel('Why it is changed').fill('day and month had changed places');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  const states = page.getByRole('table');
  await expect(states.getByRole('row', { name: /day and month had changed places/ })).toContainText('5 Jun 2014');
  await expect(states.getByRole('row', { name: /added/ })).toContainText('6 May 2014');
});

test('an event is noted, and taken back with a reason when it was a mistake', async ({ page }) => {
  await page.goto('/patients?q=Oduya');
  await page
    .getByRole('link', { name: /Mira Oduya/ })
    .first()
    .click();
  await page.getByText('Note an event').click();
  await page.getByLabel('Day', { exact: true }).fill('2026-10-20');
  await page.getByLabel('What happened').fill('release of the scar');
  await page.getByRole('button', { name: 'Note it' }).click();
  const noted = page.getByRole('list', { name: 'Events noted' });
  await expect(noted).toContainText('20 Oct 2026: operation, release of the scar');
  await noted.getByText('It was a mistake').click();
  await noted.getByLabel('Why').fill('another patient');
  await noted.getByRole('button', { name: 'Take it back' }).click();
  await expect(noted).toHaveCount(0);
});

test('a refused form says why beside each field and keeps everything that was typed', async ({ page }) => {
  await page.goto('/patients/new');
  await fillIn(page, 'HL-0200');
  await page.getByLabel('Date of birth').fill('2999-01-01');
  await page.getByRole('checkbox', { name: 'Left leg' }).uncheck();
  await add(page);
  await expect(page.getByRole('alert').filter({ hasText: 'Nothing was saved yet' })).toBeFocused();
  await expect(page.getByLabel('Date of birth')).toHaveAccessibleDescription('This day has not come yet.');
  await expect(page.getByLabel('Date of birth')).toHaveAttribute('aria-invalid', 'true');
  await expect(page.getByRole('group', { name: 'Affected limbs' })).toHaveAccessibleDescription(/Tick each affected limb or part\./);
  await expect(page.getByLabel('Reference', { exact: true })).toHaveValue('HL-0200');
  await expect(page.getByLabel('Name', { exact: true })).toHaveValue('Nadia Brook');
  await expect(page.getByLabel('Date of birth')).toHaveValue('2999-01-01');
  await expect(page.getByLabel('Diagnosis group')).toHaveValue('lymphoedema');
  await expect(page.getByRole('radio', { name: 'Girls’ and women’s' })).toBeChecked();
  await expect(page.getByRole('radio', { name: 'Español' })).toBeChecked();
  await page.goto('/patients?q=HL-0200');
  await expect(page.getByText('Nobody matches')).toBeVisible();
});

test('an empty form names every field that is needed', async ({ page }) => {
  await page.goto('/patients/new');
  await add(page);
  await expect(page.getByRole('alert').getByRole('listitem')).toHaveCount(5);
});

test('a reference that is used already is refused beside its field', async ({ page }) => {
  await page.goto('/patients/new');
  await fillIn(page, 'hl-0147');
  await add(page);
  await expect(page.getByLabel('Reference', { exact: true })).toHaveAccessibleDescription(/hl-0147 is already used by another patient/);
  await expect(page.getByLabel('Reference', { exact: true })).toHaveValue('hl-0147');
});

test('the slash key goes to the search box, but not while something is typed', async ({ page }) => {
  await page.goto('/patients/new');
  await page.getByLabel('Reference', { exact: true }).fill('HL');
  await page.getByLabel('Reference', { exact: true }).press('/');
  await expect(page.getByLabel('Reference', { exact: true })).toHaveValue('HL/');
  await page.getByRole('heading', { name: 'New patient' }).click();
  await page.keyboard.press('/');
  await expect(page.getByRole('searchbox')).toBeFocused();
});

test.describe('without JavaScript', () => {
  test.use({ javaScriptEnabled: false });

  test('a refused form still keeps what was typed, and a mended one is saved', async ({ page }) => {
    await page.goto('/patients/new');
    await fillIn(page, 'HL-0300');
    await page.getByLabel('Date of birth').fill('2999-01-01');
    await add(page);
    await expect(page.getByText('This day has not come yet.').first()).toBeVisible();
    await expect(page.getByLabel('Diagnosis group')).toHaveValue('lymphoedema');
    await page.getByLabel('Date of birth').fill('2014-05-06');
    await add(page);
    await expect(page).toHaveURL(/\/patients\/[0-9a-f-]{36}$/);
  });
});
