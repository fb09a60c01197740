import { type Browser, expect, type Page, test } from '@playwright/test';
import { authenticator } from './authenticator';
import { PASSWORD } from './people';
import { rulesBroken } from './screen-faults';

const SHORT = 'owl & sea';
const LONG = 'quietly borrowed umbrella';

async function fits(page: Page): Promise<void> {
  const size = page.viewportSize();
  await page.setViewportSize({ width: 320, height: 800 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
  if (size) await page.setViewportSize(size);
}

async function stranger(browser: Browser): Promise<Page> {
  return (await browser.newContext({ storageState: { cookies: [], origins: [] } })).newPage();
}

async function invite(page: Page, name: string, email: string): Promise<string> {
  await page.goto('/clinic/people');
  await page.getByLabel('Name', { exact: true }).fill(name);
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Role').last().selectOption('therapist');
  await page.getByRole('button', { name: 'Invite' }).click();
  return page.getByLabel('Link to hand over').inputValue();
}

async function signIn(page: Page, email: string, password: string, code?: string): Promise<void> {
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  if (!code) return;
  await page.getByLabel('Code of your second factor').fill(code);
  await page.getByRole('button', { name: 'Sign in' }).click();
}

test('an invitation with empty boxes is refused beside each of them at once, and what was typed stays', async ({ page }) => {
  await page.goto('/clinic/people');
  await page.getByLabel('E-mail').fill('no address');
  await page.getByRole('button', { name: 'Invite' }).click();
  await expect(page.getByLabel('Name', { exact: true })).toHaveAccessibleDescription(/Type the name/);
  await expect(page.getByLabel('E-mail')).toHaveAccessibleDescription(/Type the e-mail they will sign in with/);
  await expect(page.getByLabel('Role').last()).toHaveAccessibleDescription(/Choose what they may do/);
  await expect(page.getByLabel('E-mail')).toHaveValue('no address');
});

test('somebody invited joins with a password long enough and a second factor, signs in with a code once, and is let in again by the lead', async ({
  page,
  browser,
}) => {
  test.setTimeout(150_000);
  const link = await invite(page, 'N. Okafor', 'okafor@harbour.example');
  const row = page.getByRole('row').filter({ hasText: 'N. Okafor' });
  await expect(row).toContainText('invited, no password yet');

  const guest = await stranger(browser);
  await guest.goto(link);
  await expect(guest.getByRole('heading', { name: 'Join Harbour Lane' })).toBeVisible();
  expect((await guest.request.get(link)).headers()).toMatchObject({ 'referrer-policy': 'no-referrer', 'cache-control': 'no-store' });
  await guest.getByLabel('New password').fill('harbour lane okafor');
  await guest.getByRole('button', { name: 'Set the password' }).click();
  await expect(guest.getByText('This is mostly a name that others know')).toBeVisible();
  await guest.getByLabel('New password').fill(SHORT);
  await guest.getByRole('button', { name: 'Set the password' }).click();
  await expect(guest.getByText('At least 15 characters')).toBeVisible();
  await expect(guest.getByLabel('New password')).toHaveValue(SHORT);
  await guest.getByLabel('New password').fill(LONG);
  await guest.getByLabel('Set up a second factor as well').check();
  const key = (await guest.locator('[data-factor-key]').textContent()) ?? '';
  await fits(guest);
  expect(await rulesBroken(guest)).toEqual([]);
  await guest.getByLabel('Code it shows now').fill('000000');
  await guest.getByRole('button', { name: 'Set the password' }).click();
  await expect(guest.getByText('This code does not fit.')).toBeVisible();
  const joined = authenticator(key);
  await guest.getByLabel('Code it shows now').fill(joined);
  await guest.getByRole('button', { name: 'Set the password' }).click();
  await expect(guest.locator('[data-recovery-codes] li')).toHaveCount(10);
  const [recovery = ''] = await guest.locator('[data-recovery-codes] li').allInnerTexts();

  await guest.goto(link);
  await expect(guest.getByRole('heading', { name: 'This link opens nothing' })).toBeVisible();
  await signIn(guest, 'okafor@harbour.example', LONG, joined);
  await expect(guest.getByText('This code does not fit, or was used before.')).toBeVisible();
  expect(await rulesBroken(guest)).toEqual([]);
  await guest.getByLabel('Code of your second factor').fill(authenticator(key, Date.now() + 30_000));
  await guest.getByRole('button', { name: 'Sign in' }).click();
  await expect(guest).toHaveURL('/');

  await guest.goto('/account');
  await expect(guest.getByText('10 of 10 recovery codes are left.')).toBeVisible();
  expect(await rulesBroken(guest)).toEqual([]);
  await fits(guest);
  const other = await stranger(browser);
  await signIn(other, 'okafor@harbour.example', LONG, recovery);
  await expect(other).toHaveURL('/');

  await page.goto('/clinic/people');
  await expect(row).toContainText('on');
  await row.getByRole('link', { name: 'Change N. Okafor' }).click();
  await page.getByRole('button', { name: 'Turn off their lost second factor' }).click();
  await expect(page.getByRole('button', { name: 'Turn off their lost second factor' })).toHaveCount(0);
  const third = await stranger(browser);
  await signIn(third, 'okafor@harbour.example', LONG);
  await expect(third).toHaveURL('/');
});

test('a lead changes a role and keeps somebody out at once; the last lead stays; a therapist is not let near', async ({
  page,
  browser,
}) => {
  const guest = await stranger(browser);
  await guest.goto(await invite(page, 'B. Lund', 'lund@harbour.example'));
  await guest.getByLabel('New password').fill(LONG);
  await guest.getByRole('button', { name: 'Set the password' }).click();
  await expect(guest).toHaveURL('/sign-in?joined=yes', { timeout: 20_000 });
  await expect(guest.getByLabel('E-mail')).toHaveValue('lund@harbour.example');
  await signIn(guest, 'lund@harbour.example', LONG);
  await expect(guest).toHaveURL('/');
  await guest.goto('/clinic/people');
  await expect(guest.getByRole('heading', { name: 'Your role does not cover this' })).toBeVisible();

  await page.goto('/clinic/people');
  await page.getByRole('link', { name: 'Change B. Lund' }).click();
  await page.locator('#change-role').selectOption('read-only');
  await page.getByRole('button', { name: 'Change the role' }).click();
  await expect(page.getByText('The role is read-only now.')).toBeVisible();
  await guest.goto('/patients/new');
  await expect(guest.getByRole('heading', { name: 'Your role does not cover this' })).toBeVisible();
  await page.getByRole('button', { name: 'Disable' }).click();
  await expect(page.getByText('They cannot sign in any more')).toBeVisible();
  expect(await rulesBroken(page)).toEqual([]);
  await guest.goto('/patients');
  await expect(guest).toHaveURL(/sign-in/);
  await signIn(guest, 'lund@harbour.example', LONG);
  await expect(guest.getByText('This sign-in is switched off.')).toBeVisible();

  await page.goto('/clinic/people');
  await page.getByRole('link', { name: 'Change R. Adeyemi' }).click();
  await expect(page.getByRole('button', { name: 'Disable' })).toHaveCount(0);
  await page.locator('#change-role').selectOption('therapist');
  await page.getByRole('button', { name: 'Change the role' }).click();
  await expect(page.getByText('The clinic needs a lead who can sign in.')).toBeVisible();
  await page.goto('/clinic');
  for (const deed of ['person invited', 'joined by a link', 'role changed', 'person disabled'])
    await expect(page.getByRole('rowheader', { name: deed }).first()).toBeVisible();
});

test('own account: sessions are listed and ended, the password is changed and ends the others, a second factor is turned on and off', async ({
  browser,
}) => {
  const [own, other] = [await stranger(browser), await stranger(browser)];
  for (const one of [own, other]) {
    await signIn(one, 'second@harbour.example', PASSWORD);
    await expect(one).toHaveURL('/');
  }
  await own.goto('/account');
  const sessions = own.getByRole('row').filter({ hasText: 'Chrome on' });
  await expect(sessions.filter({ hasText: 'this one' })).toHaveCount(1);
  const before = await sessions.count();
  await own
    .getByRole('button', { name: /^End Chrome/ })
    .first()
    .click();
  await expect(sessions).toHaveCount(before - 1);
  await other.goto('/patients');
  await expect(other).toHaveURL(/sign-in/);
  await signIn(other, 'second@harbour.example', PASSWORD);
  await expect(other).toHaveURL('/');
  await own.locator('#current').fill('not the right one');
  await own.getByLabel('New password').fill(LONG);
  await own.getByRole('button', { name: 'Change the password' }).click();
  await expect(own.getByText('This is not your password.')).toBeVisible();
  await own.locator('#current').fill(PASSWORD);
  await own.getByRole('button', { name: 'Change the password' }).click();
  await expect(own.getByText('Your password is changed.')).toBeVisible();
  await expect(sessions).toHaveCount(1);
  await other.goto('/patients');
  await expect(other).toHaveURL(/sign-in/);

  await own.getByRole('button', { name: 'Set up a second factor' }).click();
  const key = (await own.locator('[data-factor-key]').textContent()) ?? '';
  await own.getByLabel('Code it shows now').fill(authenticator(key));
  await own.locator('#current-for-factor').fill(LONG);
  await own.getByRole('button', { name: 'Turn it on' }).click();
  await expect(own.locator('[data-recovery-codes] li')).toHaveCount(10);
  await own.getByRole('link', { name: 'I have kept them' }).click();
  await own.locator('#current-for-off').fill(LONG);
  await own.getByRole('button', { name: 'Turn the second factor off' }).click();
  await expect(own.getByRole('button', { name: 'Set up a second factor' })).toBeVisible();
  await own.locator('#current').fill(LONG);
  await own.getByLabel('New password').fill(PASSWORD);
  await own.getByRole('button', { name: 'Change the password' }).click();
  await expect(own.getByText('Your password is changed.')).toBeVisible();
});
