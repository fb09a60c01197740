import { expect, type Page, test } from '@playwright/test';
import { hashPassword } from 'better-auth/crypto';
import { seeded } from '@/tests/cohort/random';
import { plantAnswers } from '@/tests/db/planted-answers';
import { planted, plantService } from '@/tests/db/planted-service';
import { DB_FILE } from './other-clinic';
import { PASSWORD } from './people';
import { screenFaults } from './screen-faults';

test.use({ storageState: { cookies: [], origins: [] } });

const LEAD = 'lead@ferry.example';
const CASES = planted();

/** A clinic of its own, with a planted rate and a planted bad month. */
test.beforeAll(async () => {
  process.env.DB_FILE = DB_FILE;
  process.env.DATABASE_URL = '';
  const db = {
    client: await import('@/db/client'),
    schema: await import('@/db/schema/schema'),
    patients: await import('@/db/patients/patients'),
    visits: await import('@/db/patients/visits'),
    answers: await import('@/db/worklist/prompt-answers'),
    noted: await import('@/db/patients/noted'),
  };
  const { openClinic } = await import('@/db/people/people');
  const { therapistWithId } = await import('@/db/therapist');
  const units = { subtitle: '', lengthUnit: 'in', massUnit: 'lb', timeZone: 'Europe/London' } as const;
  const passwordHash = await hashPassword(PASSWORD);
  const added = await openClinic({ ...units, name: 'Ferry Road' }, { name: 'N. Alder', email: LEAD, role: 'lead', passwordHash });
  const lead = added.kind === 'added' ? await therapistWithId(added.id) : undefined;
  if (lead) await plantService(db, lead, CASES);
  if (lead) await plantAnswers(db, lead, seeded(91), { errors: 1.5, comes: 0.5, kept: 0.7 });
  await db.client.closeDatabase();
});

/** Without the first screen, which would first renew the work of all these pieces. */
async function signIn(page: Page, baseURL: string | undefined): Promise<void> {
  const data = { email: LEAD, password: PASSWORD };
  const answer = await page.request.post('/api/auth/sign-in/email', { data, headers: { origin: baseURL ?? '' } });
  expect(answer.status()).toBe(200);
  await page.goto('/clinic');
}

test('a lead sees the planted figures, what stands out, the cases behind a figure, and takes them out; by the keyboard', async ({
  page,
  baseURL,
}) => {
  await signIn(page, baseURL);
  await page.getByRole('link', { name: 'How good are we?' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'How good are we?' })).toBeVisible();
  await page.getByRole('link', { name: 'All', exact: true }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('link', { name: 'All', exact: true })).toHaveAttribute('aria-current', 'page');
  const good = CASES.filter(({ outcome }) => outcome === 'keep').length;
  const firsts = page.getByRole('link', { name: `${good} of ${CASES.length}: the cases behind first fits good, no alteration` });
  await expect(firsts).toBeVisible();
  await expect(page.getByText(/^Oct 2026 stands outside, above its upper limit: 12 of 2\d\.$/)).toBeVisible();
  const file = await page.request.get('/clinic/service/file?period=all');
  expect(file.headers()['content-type']).toContain('text/csv');
  expect(await file.text()).toMatch(new RegExp(`^first_fits,,,,\\d{4}-\\d\\d,${CASES.length},${good},1,0\\.`, 'm'));
  expect(await (await page.request.get('/clinic/service/file?as=dictionary')).text()).toContain('figure,first_fits,');
  await firsts.focus();
  await page.keyboard.press('Enter');
  await expect(page.getByText(`${CASES.length} cases. The newest 200 are shown.`)).toBeVisible();
  expect(await screenFaults(page)).toEqual([]);
});

test('a month is read off a process chart in place, with the figures of its table', async ({ page, baseURL }) => {
  await signIn(page, baseURL);
  await page.goto('/clinic/service?period=all');
  const chart = page.getByRole('region', { name: 'Remakes by month' });
  await expect(page.locator('.recharts-surface')).toHaveCount(0);
  const figures = chart.locator('[aria-live]');
  await chart.getByRole('group', { name: 'Months of Remakes by month' }).getByRole('button', { name: 'Earlier' }).press('Home');
  await chart.getByText('As a table').click();
  for (const [key, row] of [
    ['Home', chart.locator('tbody tr').first()],
    ['End', chart.locator('tbody tr').last()],
  ] as const) {
    await chart.getByRole('button', { name: 'Earlier' }).press(key);
    const [month = '-', share = '-', n = '-', limits = '-'] = (await row.locator('th, td').allTextContents()).map((text) => text.trim());
    await expect(figures).toContainText(month);
    await expect(figures.locator('dd b')).toHaveText(share);
    await expect(figures).toContainText(`n ${n}, limits ${limits}`);
  }
  await expect(chart.locator('.recharts-surface')).toBeVisible();
});

test('a lead sees where a rule is off, by how much and what the learnt scale would change, and the cases behind it', async ({
  page,
  baseURL,
}) => {
  await signIn(page, baseURL);
  await page.goto('/clinic/service?period=all');
  await expect(page.getByText(/^Ranges since the baseline are off: \d\d in 100 held, not 95\./)).toBeVisible();
  await expect(
    page.getByText(/the scale of error, now 1, would be about [12]\.\d\d, and a change would be said less readily/).first(),
  ).toBeVisible();
  await expect(page.getByText(/^Without a working piece 36\.5 days a year and limb/)).toBeVisible();
  await page.getByRole('link', { name: /: the cases behind no clear change, since the visit before$/ }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Verdicts given, and what later visits say' })).toBeVisible();
  await expect(page.getByRole('cell', { name: 'confirmed' }).first()).toBeVisible();
  expect(await screenFaults(page)).toEqual([]);
});

/** The smallest letters on paper as wide as A4 within its margins, CSS px: with the zoom of the page and the scale of each drawing. */
async function smallestPrinted(page: Page): Promise<number> {
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: 695, height: 1000 });
  const least = await page.locator('main').evaluate((main) => {
    const sizes = [...main.querySelectorAll('*')].flatMap((element) => {
      const own = [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim());
      if (!own || element.getClientRects().length === 0) return [];
      const size = Number.parseFloat(getComputedStyle(element).fontSize);
      const drawing = element.closest('svg');
      if (drawing?.viewBox.baseVal.width) return [(size * drawing.getBoundingClientRect().width) / drawing.viewBox.baseVal.width];
      return [size * (element as Element & { currentCSSZoom: number }).currentCSSZoom];
    });
    return Math.min(...sizes);
  });
  await page.emulateMedia({ media: null });
  return least;
}

test('the page reads in light and dark at every width, and prints no letter smaller than the sheet of an order, on few sides', async ({
  page,
  baseURL,
}) => {
  await signIn(page, baseURL);
  await page.goto('/clinic/service?period=all');
  expect(await smallestPrinted(page)).toBeGreaterThanOrEqual(11.5);
  const printed = (await page.pdf({ format: 'A4', preferCSSPageSize: true })).toString('latin1');
  expect(printed.match(/\/Type\s*\/Page\b/g)?.length).toBeLessThanOrEqual(5);
  expect(await screenFaults(page)).toEqual([]);
});
