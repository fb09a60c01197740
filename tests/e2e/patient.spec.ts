import { expect, type Locator, type Page, test } from '@playwright/test';
import { readLength } from '@/lib/units/read-length';
import { screenFaults } from './screen-faults';

const STORIES = ['Bram Oster', 'Ana Brisk', 'Rui Castellan', 'Tess Ibarra'];

async function openPatient(page: Page, name: string): Promise<string> {
  await page.goto(`/patients?q=${encodeURIComponent(name)}`);
  await page.getByRole('link', { name }).click();
  await expect(page.getByRole('heading', { level: 1, name })).toBeVisible();
  return new URL(page.url()).pathname;
}

/** The screens of one patient, with the newest visit and piece. */
async function patientPages(page: Page, name: string): Promise<string[]> {
  const own = await openPatient(page, name);
  const links = await page.locator('main a').evaluateAll((all) => all.map((link) => new URL((link as HTMLAnchorElement).href).pathname));
  const visit = links.find((link) => /\/visits\/[0-9a-f-]{36}$/.test(link));
  const piece = links.find((link) => /\/pieces\/[0-9a-f-]{36}$/.test(link));
  return [own, `${own}/girths`, `${own}/pieces/new`, ...[visit, piece].filter((link) => link !== undefined)];
}

test('no screen of a patient breaks a rule of WCAG 2.2 A or AA that axe can see, is wider than its window, or carries an inline style', async ({
  page,
}) => {
  test.setTimeout(180_000);
  for (const place of ['/', ...(await patientPages(page, 'Bram Oster')), ...(await patientPages(page, 'Ana Brisk')), '/clinic/limits']) {
    const answer = await page.goto(place);
    expect((await answer?.text())?.match(/<[^>]+\sstyle=/g) ?? [], place).toEqual([]);
    expect(await screenFaults(page, [1280, 834, 390, 320]), place).toEqual([]);
  }
});

test('every story has a next action or says that nothing is asked, and its charts have names and tables', async ({ page }) => {
  for (const name of STORIES) {
    await openPatient(page, name);
    await expect(page.getByRole('heading', { name: 'Next', exact: true })).toBeVisible();
    const chart = page.getByRole('region', { name: 'Volume over time' });
    await expect(chart.getByRole('img')).toHaveAttribute('aria-label', /ml on \d/);
    const said = await chart.getByRole('img').getAttribute('aria-label');
    const last = /([\d,]+)\sml on [^,]+, \d+ visits/.exec(said ?? '')?.[1];
    await chart.getByText('As a table').click();
    await expect(chart.getByRole('cell', { name: new RegExp(`^${last}\\s`) }).first()).toBeVisible();
    await expect(page.getByText('This page does not diagnose or decide.')).toBeVisible();
  }
});

test('values can be read off a chart whose library is fetched only then', async ({ page }) => {
  await openPatient(page, 'Tess Ibarra');
  const chart = page.getByRole('region', { name: 'Volume over time' });
  await page.waitForLoadState('networkidle');
  await expect(page.locator('.recharts-surface')).toHaveCount(0);
  const figures = chart.locator('[aria-live]');
  const newest = await figures.textContent();
  await chart.getByRole('button', { name: /Earlier/ }).press('Home');
  await expect(page.locator('.recharts-surface').first()).toBeVisible();
  const first = await figures.textContent();
  expect(first).not.toBe(newest);
  await page.keyboard.press('End');
  await expect(figures).toHaveText(newest ?? '');
  const drawn = await chart.getByRole('img').boundingBox();
  if (!drawn) throw new Error('no chart');
  await page.mouse.move(drawn.x + 62, drawn.y + drawn.height / 2);
  await expect(figures).toHaveText(first ?? '');
});

function nmOf(read: ReturnType<typeof readLength>): number {
  return read.kind === 'read' ? read.value.nm : Number.NaN;
}

/** How far the mark that is read lies from every mark of the drawing under it, px: the least of them. */
async function offMark(chart: Locator): Promise<number> {
  return chart.evaluate((region) => {
    const middle = (mark: Element) => {
      const { left, top, width, height } = mark.getBoundingClientRect();
      return [left + width / 2, top + height / 2] as const;
    };
    const read = region.querySelector('.recharts-surface [data-side] > *');
    if (!read) return Number.POSITIVE_INFINITY;
    const [x, y] = middle(read);
    const drawn = [...region.querySelectorAll('svg[role="img"] :is(rect, circle, path)')].map(middle);
    return Math.min(...drawn.map(([otherX, otherY]) => Math.hypot(otherX - x, otherY - y)));
  });
}

test('height and weight are read in place, with the age at each visit and the figures of the table, on the drawn marks', async ({
  page,
}) => {
  await openPatient(page, 'Rui Castellan');
  const growth = page.getByRole('region', { name: 'Growth' });
  await expect(page.locator('.recharts-surface')).toHaveCount(0);
  const [height, weight] = [growth.locator('[aria-live]').first(), growth.locator('[aria-live]').nth(1)];
  await growth.getByText('As a table').click();
  const rows = growth.getByRole('row');
  const keys = growth.getByRole('group', { name: 'Visits of the height' });
  await keys.getByRole('button', { name: 'Earlier' }).press('Home');
  await expect(keys.getByText(/^1 of \d+$/)).toBeVisible();
  const [day = '', tall = '', heavy = ''] = (await rows.last().locator('th, td').allTextContents()).map((text) => text.trim());
  await expect(height).toContainText(`${day}, at `);
  await expect(height).toContainText(/at \d+ years( \d+ months?)?/);
  const figure = async (of: Locator) => (await of.locator('dd b').textContent()) ?? '-';
  const inches = (text: string) => readLength(text, 'in');
  expect(inches(await figure(height))).toMatchObject({ kind: 'read', value: { nm: nmOf(inches(tall)) } });
  await expect(height).toContainText(/\d+(st|nd|rd|th) centile/);
  await expect.poll(() => offMark(growth)).toBeLessThan(1.5);
  const others = growth.getByRole('group', { name: 'Visits of the weight' });
  await others.getByRole('button', { name: 'Later' }).press('Home');
  await expect(weight).toContainText(`${day}, at `);
  expect(Number.parseFloat(await figure(weight))).toBeCloseTo(Number.parseFloat(heavy), 1);
});

test('tightness is read in place by place, the tightest first, with the figures of its table; on a phone its place is brought into view', async ({
  page,
}) => {
  await openPatient(page, 'Rui Castellan');
  await page.getByRole('region', { name: 'Visits' }).getByRole('link').nth(1).click();
  const piece = page.getByRole('region', { name: /^Pieces? .* on the left leg$/ }).first();
  await expect(piece).toBeVisible();
  await page.waitForLoadState('networkidle');
  await expect(page.locator('.recharts-surface')).toHaveCount(0);
  await expect(piece).toContainText(/Day \d+ (of the \d+ it is planned for|since it was first worn: it was planned for \d+)\./);
  const figures = piece.locator('[aria-live]');
  const most = /up to ([\d.]+)/.exec((await piece.getByText(/^As cut up to/).textContent()) ?? '')?.[1] ?? '-';
  await expect(figures.locator('dd b').first()).toHaveText(most);
  await page.setViewportSize({ width: 390, height: 844 });
  const keys = piece.getByRole('group', { name: /^Places of the tightness of pieces? / });
  await keys.getByRole('button', { name: 'To the trunk' }).press('End');
  await piece.getByText('As a table').first().click();
  const row = (await piece.locator('tbody tr').first().locator('th, td').allTextContents()).map((text) => text.trim());
  await expect(figures).toContainText(`Place at ${row[0]}`);
  await expect(figures.locator('dd b').first()).toHaveText(row[1] ?? '-');
  await expect(figures.locator('dd').first()).toContainText(row[2] ?? '-');
  await expect.poll(() => offMark(piece)).toBeLessThan(1.5);
  const mark = await piece.locator('.recharts-surface [data-side]').first().boundingBox();
  expect(mark?.x ?? 0).toBeGreaterThan(0);
  expect((mark?.x ?? 0) + (mark?.width ?? 0)).toBeLessThan(390);
  expect(await screenFaults(page)).toEqual([]);
});

test('the small figures of the girths say what they are: per cent, against which visit', async ({ page }) => {
  const own = await openPatient(page, 'Rui Castellan');
  await page.goto(`${own}/girths`);
  await expect(page.getByText(/Small: how much larger \(\+\) or smaller \(−\) the girth is there than at the first visit\./)).toBeVisible();
  await expect(page.getByRole('cell', { name: /[+−]\d+\.\d\s%/ }).first()).toBeVisible();
  await page.getByRole('link', { name: 'since the visit before' }).click();
  await expect(page.getByText(/than at the visit before\./)).toBeVisible();
});

test('a moved zero shows both readings side by side and corrects nothing', async ({ page }) => {
  await openPatient(page, 'Bram Oster');
  await page.getByRole('region', { name: 'Visits' }).getByRole('link').nth(1).click();
  await expect(page).toHaveURL(/\/visits\/[0-9a-f-]{36}$/);
  // The folded figures behind the verdict hold the sentence too.
  await expect(
    page
      .getByText(/zero looks moved by about/)
      .filter({ visible: true })
      .first(),
  ).toBeVisible();
  await expect(page.getByRole('row', { name: /As recorded/ }).first()).toContainText('%');
  await expect(page.getByRole('row', { name: /Zero moved back/ }).first()).toContainText('%');
  await expect(page.getByText('Nothing has been corrected.').first()).toBeVisible();
});

test('a prompt is put off only to a later day, declined only with a reason, and stays away after that', async ({ page }) => {
  const own = await openPatient(page, 'Ana Brisk');
  const prompt = page.getByRole('article').first();
  const title = await prompt.getByRole('heading').textContent();
  await expect(prompt.getByRole('button', { name: 'Told the prescriber' })).toBeVisible();
  await prompt.getByText('Not for this patient…').click();
  await prompt.getByRole('button', { name: 'Keep this answer' }).click();
  await expect(page).toHaveURL(own);
  await expect(prompt.getByRole('heading')).toHaveText(title ?? '');
  await prompt.getByLabel('Why not').fill('assessed on the ward the same day');
  await prompt.getByRole('button', { name: 'Keep this answer' }).click();
  await expect(page.getByRole('article').first().getByRole('heading')).not.toHaveText(title ?? '');
  await page.goto(own);
  await expect(page.getByRole('heading', { name: title ?? '' })).toHaveCount(0);
});

test('a refused piece says why beside each box and keeps what was typed; a good one appears at once', async ({ page }) => {
  const own = await openPatient(page, 'Rui Castellan');
  await page.getByRole('link', { name: 'Add a piece' }).click();
  await page.getByLabel('Piece', { exact: true }).fill('9');
  await page.getByLabel('Reduction, %').fill('1,234');
  await page.getByLabel('First worn').fill('2001-01-01');
  await page.getByRole('button', { name: 'Add the piece' }).click();
  await expect(page.getByText('“1,234” can be read two ways. Type 1.234 or 1234.')).toBeVisible();
  await expect(page.getByText('This is before the measurements it was made to.')).toBeVisible();
  await expect(page.getByLabel('Piece', { exact: true })).toHaveValue('9');
  await expect(page.getByLabel('Reduction, %')).toHaveValue('1,234');
  await page.getByLabel('Reduction, %').fill('12.5');
  await page.getByLabel('First worn').fill('');
  await page.getByRole('button', { name: 'Add the piece' }).click();
  await expect(page).toHaveURL(own);
  await expect(page.getByRole('region', { name: 'Pieces' }).getByRole('link', { name: 'Piece 9' })).toBeVisible();
});

test('filters of the worklist stand in the address and hold after a reload', async ({ page }) => {
  await page.goto('/');
  await page.getByRole('navigation', { name: 'Kind of work' }).getByRole('link', { name: 'Refer' }).click();
  await expect(page).toHaveURL('/?kind=refer');
  await page.reload();
  await expect(page.getByRole('navigation', { name: 'Kind of work' }).locator('[aria-current]')).toHaveText('Refer');
});

test('a limit is changed only with a reason, says who changed it, and is used', async ({ page }) => {
  await page.goto('/clinic/limits');
  await page.getByLabel('Upper edge of the working band').fill('0,9');
  await page.getByRole('button', { name: 'Keep these limits' }).click();
  await expect(page.getByText('The upper edge must lie above 1, the fitting itself.')).toBeVisible();
  await page.getByLabel('Upper edge of the working band').fill('1.3');
  await page.getByRole('button', { name: 'Keep these limits' }).click();
  await expect(page.getByText('Say why the limits are changed')).toBeVisible();
  await page.getByLabel('Why they are changed').fill('agreed at the team meeting');
  await page.getByRole('button', { name: 'Keep these limits' }).click();
  await expect(page.getByText(/R\. Adeyemi: agreed at the team meeting/)).toBeVisible();
  await expect(page.getByLabel('Upper edge of the working band')).toHaveValue('1.3');
  await page.goto('/patients?q=Ana');
  await page.getByRole('link', { name: 'Ana Brisk' }).click();
  await expect(page.locator('details').filter({ hasText: 'Upper edge of the working band' }).first()).toContainText(
    'This clinic’s own: 1.3 of fitted tightness (default 1.25 of fitted tightness). Clinic default:',
  );
});

test('the clinic’s scale of error is learnt when a lead asks, shown with what it was learnt from, and kept when a lead says so', async ({
  page,
}) => {
  await page.goto('/clinic/limits');
  const panel = page.getByRole('region', { name: 'How well this clinic measures' });
  await panel.getByRole('button', { name: 'Learn from our record' }).click();
  await expect(panel.getByText(/^\d+\.\d\d.*, from \d+ limbs? measured three times or more\.$/)).toBeVisible();
  const keep = panel.getByRole('button', { name: /^Keep \d+\.\d\d as this clinic’s factor$/ });
  const factor = /\d+\.\d\d/.exec((await keep.textContent()) ?? '')?.[0] ?? '';
  await keep.click();
  await expect(page.getByText(/R\. Adeyemi: Learnt from \d+ limbs? on \d+ \w+ \d{4}/)).toBeVisible();
  await expect(page.getByLabel('How much larger the errors of this clinic are')).toHaveValue(String(Number(factor)));
});
