import { expect, type Page, test } from '@playwright/test';
import { PASSWORD, PEOPLE } from './people';

test.use({ storageState: { cookies: [], origins: [] } });

/** What a browser says of a request from one of the program's own pages. */
const own = { 'sec-fetch-site': 'same-origin' };

async function signIn(page: Page, email: string, password: string) {
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(password);
  await page.getByRole('button', { name: 'Sign in' }).click();
}

test('each page sends a stranger to the sign-in page', async ({ page }) => {
  for (const place of ['/', '/patients', '/patients/new', '/pieces', '/clinic', '/not-allowed']) {
    await page.goto(place);
    await expect(page).toHaveURL(/\/sign-in/);
    await expect(page.getByRole('heading', { name: 'Sign in' })).toBeVisible();
    await expect(page.getByText('Mira Oduya')).toHaveCount(0);
  }
});

test('after signing in a person lands where they wanted to go, and the page head names them and their clinic', async ({ page }) => {
  await page.goto('/patients?q=mira');
  await signIn(page, PEOPLE.lead.email, PASSWORD);
  await expect(page).toHaveURL('/patients?q=mira');
  await expect(page.getByRole('banner')).toContainText('Harbour Lane');
  await expect(page.getByRole('banner')).toContainText('R. Adeyemi');
});

test('an address on another host is not followed after signing in', async ({ page }) => {
  await page.goto('/sign-in?to=//elsewhere.example/trap');
  await signIn(page, PEOPLE.lead.email, PASSWORD);
  await expect(page).toHaveURL('/');
});

test('a wrong password and an unknown e-mail are told the same way, beside the field, and the e-mail stays typed', async ({ page }) => {
  await page.goto('/sign-in');
  for (const email of [PEOPLE.reader.email, 'nobody@harbour.example']) {
    await signIn(page, email, 'not the right one');
    await expect(page.getByText('This e-mail and password do not match.')).toBeVisible();
    await expect(page.getByLabel('E-mail')).toHaveValue(email);
    await expect(page.getByLabel('Password')).toBeFocused();
    await expect(page).toHaveURL('/sign-in');
  }
});

test('the ninth try at one account is refused although its password is right, and another account is not', async ({ page, request }) => {
  const post = (email: string, password: string, from: string) =>
    request.post('/api/auth/sign-in/email', { data: { email, password }, headers: { ...own, 'x-forwarded-for': from } });
  for (let tries = 1; tries <= 8; tries += 1) {
    expect((await post(PEOPLE.guessed.email, `guess ${tries}`, `10.0.0.${tries}`)).status()).toBe(401);
  }
  expect((await post(PEOPLE.guessed.email, PASSWORD, '10.0.0.99')).status()).toBe(429);
  expect((await post(PEOPLE.lead.email, PASSWORD, '10.0.0.100')).status()).toBe(200);
  await page.goto('/sign-in');
  await signIn(page, PEOPLE.guessed.email, PASSWORD);
  await expect(page.getByText('Too many wrong tries.')).toBeVisible();
});

test('nobody can join by themselves, and no other address of the sign-in library answers', async ({ request }) => {
  const data = { email: 'new@harbour.example', password: 'a password of length', name: 'New' };
  for (const place of ['sign-up/email', 'update-user', 'request-password-reset', 'change-password', 'revoke-sessions']) {
    expect((await request.post(`/api/auth/${place}`, { data })).status()).toBe(404);
  }
  expect((await request.get('/api/auth/get-session')).status()).toBe(405);
});

test('a request from another site cannot sign in', async ({ request }) => {
  const data = { email: PEOPLE.lead.email, password: PASSWORD };
  const from: Record<string, string>[] = [
    { origin: 'https://elsewhere.example' },
    { origin: 'null' },
    { 'sec-fetch-site': 'cross-site' },
    {},
  ];
  for (const headers of from) expect((await request.post('/api/auth/sign-in/email', { data, headers })).status()).toBe(403);
});

test('signing out ends the session on the server too: its cookie opens nothing afterwards', async ({ page, context }) => {
  await page.goto('/sign-in');
  await signIn(page, PEOPLE.lead.email, PASSWORD);
  await expect(page).toHaveURL('/');
  const cookies = await context.cookies();
  await page.getByText('R. Adeyemi', { exact: true }).first().click();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await expect(page).toHaveURL('/sign-in');
  await context.addCookies(cookies);
  await page.goto('/patients');
  await expect(page).toHaveURL(/\/sign-in/);
});

test('the session cookie cannot be read by scripts and stays with this site', async ({ page, context }) => {
  await page.goto('/sign-in');
  await signIn(page, PEOPLE.lead.email, PASSWORD);
  await expect(page).toHaveURL('/');
  const session = (await context.cookies()).find((cookie) => cookie.name.includes('session_token'));
  expect(session).toMatchObject({ httpOnly: true, sameSite: 'Lax' });
  const hours = ((session?.expires ?? 0) * 1000 - Date.now()) / 3_600_000;
  expect(hours).toBeGreaterThan(11.9);
  expect(hours).toBeLessThanOrEqual(12);
});

test('a read-only person sees patients and is not offered to add one, nor let', async ({ page }) => {
  await page.goto('/sign-in?to=/patients');
  await signIn(page, PEOPLE.reader.email, PASSWORD);
  await expect(page.getByRole('link', { name: 'Mira Oduya' })).toBeVisible();
  await expect(page.getByRole('link', { name: 'New patient' })).toHaveCount(0);
  await page.goto('/patients/new');
  await expect(page.getByRole('heading', { name: 'Your role does not cover this' })).toBeVisible();
});

test('signing out leaves nothing of the last patient in the window: not in the page, its scripts, its history or what Back shows', async ({
  page,
}) => {
  await page.goto('/sign-in');
  await signIn(page, PEOPLE.lead.email, PASSWORD);
  await page.waitForURL('/');
  await page.goto('/patients?q=mira');
  await page.getByRole('link', { name: 'Mira Oduya' }).first().click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Mira Oduya');
  await page.evaluate(() => Object.assign(window, { keptFromBefore: true }));
  await page.getByText('R. Adeyemi').first().click();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.waitForURL('/sign-in');
  expect(await page.evaluate(() => 'keptFromBefore' in window), 'the window was thrown away').toBe(false);
  expect(await page.evaluate(() => document.documentElement.outerHTML)).not.toMatch(/Oduya|HL-0147/);
  await page.goBack();
  await page.waitForURL(/\/sign-in/);
  await expect(async () => {
    expect(await page.evaluate(() => document.documentElement.outerHTML)).not.toMatch(/Oduya|HL-0147/);
  }).toPass();
  await signIn(page, PEOPLE.lead.email, PASSWORD);
  await expect(page.getByRole('banner')).toContainText('R. Adeyemi');
  const left = await page.request.post('/sign-out', { maxRedirects: 0, headers: own });
  expect([left.status(), left.headers()['clear-site-data']]).toEqual([303, '"cache"']);
});
