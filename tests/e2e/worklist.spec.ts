import { expect, type Locator, type Page, test } from '@playwright/test';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import { PASSWORD, PEOPLE } from './people';
import { screenFaults } from './screen-faults';

const DATABASE = `${process.env.E2E_FOLDER ?? 'test-results/browser'}/clinic.db`;
const today = new Intl.DateTimeFormat('en-CA', { timeZone: 'Europe/London' }).format(new Date()) as CalendarDay;

/** The lines of one patient on the first screen, read anew, once the list says no more that it may change: a line that is made anew has another address. */
async function linesOf(page: Page, name: string, kind = 'all'): Promise<Locator> {
  await page.goto(`/?q=${encodeURIComponent(name)}${kind === 'all' ? '' : `&kind=${kind}`}`);
  await expect(page.getByText('this list may change')).toHaveCount(0, { timeout: 30_000 });
  return page.locator('tr[data-line]').filter({ hasText: name });
}

async function openAnswer(page: Page, line: Locator): Promise<Locator> {
  await line.getByRole('link', { name: /^Answer/ }).click();
  const form = page.locator('tr[data-answering]');
  await expect(form).toBeVisible();
  return form;
}

test('a line put off stays away until its day and is back on it', async ({ page }) => {
  const before = await linesOf(page, 'Tess Ibarra', 'remeasure');
  const title = await before.locator('[data-what] strong').first().textContent();
  const lines = await before.count();
  const form = await openAnswer(page, before.first());
  await form.getByText('Not now, ask again on…').click();
  await form.getByLabel('Ask again on').fill(addDays(today, 20));
  await form.getByRole('button', { name: 'Ask again then' }).click();
  await expect(page.locator('tr[data-answering]')).toHaveCount(0);
  await expect(page).toHaveURL(/\?kind=remeasure&q=Tess/);
  await expect(page.locator('tr[data-line]').filter({ hasText: 'Tess Ibarra' })).toHaveCount(lines - 1);
  const database = new BetterSqlite(DATABASE);
  const row = database.prepare("select * from prompt_answer where answer = 'not-now' order by at desc limit 1").get() as {
    patient_id: string;
  };
  const again = { ...row, id: crypto.randomUUID(), until: today, at: Date.now() };
  const names = Object.keys(again);
  database.prepare(`insert into prompt_answer (${names.join(', ')}) values (${names.map((name) => `@${name}`).join(', ')})`).run(again);
  database.prepare('update work_state set renewed_for = null, changes = changes + 1 where patient_id = ?').run(row.patient_id);
  database.close();
  const after = await linesOf(page, 'Tess Ibarra', 'remeasure');
  await expect(after).toHaveCount(lines);
  await expect(after.first()).toContainText(title ?? '');
});

test('a line declined with a reason does not return, is kept with who and why, and can be opened again', async ({ page }) => {
  const before = await linesOf(page, 'Ana Brisk', 'order');
  await expect(before).toHaveCount(1);
  const form = await openAnswer(page, before.first());
  await form.getByText('Not for this patient…').click();
  await form.getByLabel('Why not').fill('moves to another clinic.');
  await form.getByRole('button', { name: 'Keep this answer' }).click();
  await expect(page.locator('tr[data-line]').filter({ hasText: 'Ana Brisk' })).toHaveCount(0);
  await expect(await linesOf(page, 'Ana Brisk', 'order')).toHaveCount(0);
  const rest = await linesOf(page, 'Ana Brisk');
  await rest.first().getByRole('link', { name: 'Ana Brisk', exact: true }).click();
  await page.getByRole('link', { name: 'Proposed and answered' }).click();
  await expect(page.getByText(/Not for this patient: moves to another clinic\. R\. Adeyemi/).first()).toBeVisible();
  await expect(page.getByText(/^To: Consider ordering/).first()).toBeVisible();
  await expect(page.getByText(/Rule “outgrown before worn out”, version \d/).first()).toBeVisible();
  await page.getByRole('button', { name: /^Open again: Consider ordering/ }).click();
  await expect(page.getByText(/^Opened again\. R\. Adeyemi/)).toBeVisible();
  await expect(await linesOf(page, 'Ana Brisk', 'order')).toHaveCount(1);
});

test('a line about a date leads to where it is seen to: a piece that is awaited, to the piece', async ({ page }) => {
  await page.goto('/?kind=delivery');
  await page.getByRole('link', { name: /^Answer: Expect piece .*Rui Castellan/ }).click();
  await page.getByRole('link', { name: 'It came' }).click();
  await expect(page).toHaveURL(/\/pieces\/[0-9a-f-]{36}$/);
  await expect(page.getByText(/awaited|on its way/i).first()).toBeVisible();
});

test('a date is moved by hand with a reason, which stands beside it on both screens', async ({ page }) => {
  await page.goto('/patients?q=Mira');
  await page.getByRole('link', { name: 'Mira Oduya' }).click();
  const dates = page.getByRole('region', { name: 'Dates' });
  const visit = dates.getByRole('listitem').filter({ hasText: 'Next visit' });
  await visit.getByText('Move', { exact: true }).click();
  await visit.getByLabel('Move to').fill(addDays(today, 90));
  await visit.getByLabel('Why').fill('family on holiday');
  await visit.getByRole('button', { name: 'Move it' }).click();
  await expect(visit.getByText(/Moved by hand from .*: family on holiday\. R\. Adeyemi/)).toBeVisible();
  await expect(visit).toContainText('in 90 days');
  await expect(await linesOf(page, 'Mira Oduya', 'visit')).toContainText('Moved by hand: family on holiday');
});

test('the kind, the words searched for and the open answer stand in the address; a line is answered by keyboard alone', async ({
  page,
}) => {
  await page.goto('/');
  const whose = page.getByRole('navigation', { name: 'Whose work' });
  await whose.getByRole('link', { name: 'Mine' }).click();
  await expect(page).toHaveURL('/?whose=mine');
  await expect(page.getByText('Patients whose newest visit was written by you.')).toBeVisible();
  await expect(page.locator('tr[data-line]').filter({ hasText: 'Tess Ibarra' }).first()).toBeVisible();
  await expect(page.locator('tr[data-line]').filter({ hasText: 'Joss Tamblyn' }), 'nobody measured him yet').toHaveCount(0);
  await whose.getByRole('link', { name: 'Everyone’s' }).click();
  await expect(page).toHaveURL('/');
  await page.getByRole('navigation', { name: 'Kind of work' }).getByRole('link', { name: 'Remeasure' }).focus();
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL('/?kind=remeasure');
  await page.getByLabel('Reference or name in this list').focus();
  await page.keyboard.type('tess');
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL('/?kind=remeasure&q=tess');
  await expect(page.getByText('1 patient matches “tess”.')).toBeVisible();
  const line = page.locator('tr[data-line]').first();
  await line.getByRole('link', { name: /^Answer/ }).focus();
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL(/answer=/);
  await expect(page.locator('tr[data-answering]').getByRole('button', { name: 'Reviewed' })).toBeVisible();
  await page.reload();
  await expect(page.locator('tr[data-answering]')).toBeVisible();
  await page.locator('tr[data-answering]').getByText('Not now, ask again on…').focus();
  await page.keyboard.press('Enter');
  await expect(page.locator('tr[data-answering]').getByLabel('Ask again on')).toBeVisible();
  await line.getByRole('link', { name: /^Close/ }).focus();
  await page.keyboard.press('Enter');
  await expect(page.locator('tr[data-answering]')).toHaveCount(0);
});

test('the worklist with an answer open and the page of answers pass axe in light and dark, and fit a phone', async ({ page }) => {
  await page.goto('/');
  await page
    .getByRole('link', { name: /^Answer/ })
    .first()
    .click();
  await expect(page.locator('tr[data-answering]')).toBeVisible();
  const open = page.url();
  const patient = await page.locator('tr[data-line] th a').first().getAttribute('href');
  for (const place of [open, `${patient}/prompts`, patient ?? '']) {
    await page.goto(place);
    expect(await screenFaults(page), place).toEqual([]);
  }
});

test('a reader sees the lines and no way to answer them', async ({ browser }) => {
  const page = await signedIn(await browser.newPage({ storageState: { cookies: [], origins: [] } }), PEOPLE.reader.email);
  await expect(page.locator('tr[data-line]').first()).toBeVisible();
  await expect(page.getByRole('link', { name: /^Answer/ })).toHaveCount(0);
  await page.close();
});

test('ten thousand patients are a page of lines, whose next pages, filters and search work the same', async ({ browser }) => {
  const page = await signedIn(await browser.newPage({ storageState: { cookies: [], origins: [] } }), PEOPLE.crowded.email);
  await expect(page.getByText(/of 10000 patients overdue/)).toBeVisible();
  await expect(page.getByText('still being looked at')).toHaveCount(0);
  expect(await page.locator('tr[data-line]').count()).toBeLessThanOrEqual(40);
  const later = page.getByRole('region', { name: /^Later/ });
  const seen = new Set<string>();
  for (let turn = 0; turn < 3; turn++) {
    const names = await later.locator('tr[data-line] th a').allTextContents();
    expect(names.length).toBeGreaterThan(3);
    for (const name of names) expect(seen.has(name)).toBe(false);
    for (const name of names) seen.add(name);
    await later.getByRole('link', { name: 'Later: show the next' }).click();
    await expect(later.locator('tr[data-line] th a').first()).not.toHaveText(names[0] ?? '');
  }
  await later.getByRole('link', { name: 'Later: from the start' }).click();
  await expect(page).toHaveURL('/');
  await page.goto('/?q=B-004242');
  await expect(page.locator('tr[data-line]')).toHaveCount(1);
  await page.goto('/?kind=delivery');
  await expect(page.locator('[data-what] strong').first()).toHaveText('Expect piece 3');
  await page.close();
});

async function signedIn(page: Page, email: string): Promise<Page> {
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page).toHaveURL('/');
  return page;
}
