import { expect, type Page, test } from '@playwright/test';
import { cell, finish, newSheet, saved, typeDown } from './on-the-sheet';
import { screenFaults } from './screen-faults';

/** A made-up leg every 1½ in: 24 girths that rise and fall as a leg does. */
const LEG =
  '8 1/8,8 3/8,8 7/8,9 5/8,10 1/2,11 3/8,12 1/8,12 5/8,12 7/8,12 3/4,12 1/2,12 3/8,12 5/8,13 1/8,13 5/8,14 1/4,14 7/8,15 1/2,16 1/8,16 5/8,17 1/8,17 5/8,18,18 3/8'.split(
    ',',
  );
const OTHER_LEG = LEG.map((girth, index) =>
  index % 3 === 0 ? girth : girth.replace('7/8', '3/4').replace('3/8', '1/4').replace('1/8', '1/4'),
);

/** Counts every key that reaches the page. */
async function countKeys(page: Page): Promise<() => Promise<number>> {
  await page.evaluate(() => {
    (window as unknown as { keys: number }).keys = 0;
    document.addEventListener('keydown', () => ((window as unknown as { keys: number }).keys += 1), true);
  });
  return () => page.evaluate(() => (window as unknown as { keys: number }).keys);
}

test('two limbs of 24 rungs take the digits, one key a rung and one a limb, and nothing else', async ({ page }) => {
  test.setTimeout(120_000);
  await newSheet(page, 'SH-24');
  for (let more = 10; more < 24; more++) await page.getByRole('button', { name: 'One more rung' }).click();
  await cell(page, 'Right', '1½').focus();
  const keys = await countKeys(page);
  await typeDown(page, LEG);
  await expect(page.getByText('End of the right leg: 24 of 24 girths.')).toBeVisible();
  await page.keyboard.press('n');
  await expect(cell(page, 'Left', '1½')).toBeFocused();
  await typeDown(page, OTHER_LEG);
  await page.keyboard.press('n');
  await expect(page.getByRole('button', { name: 'Finish visit', exact: true })).toBeFocused();
  const typed = [...LEG, ...OTHER_LEG].join('').length;
  const pressed = await keys();
  console.log(`keystrokes: ${pressed} for 48 girths = ${typed} characters + 48 Enter + ${pressed - typed - 48} N`);
  expect(pressed).toBe(typed + 48 + 2);
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL(/\/visits\/[0-9a-f-]{36}$/, { timeout: 15_000 });
});

test('Enter twice at the end of a column stays there: neither the other limb nor the end of the visit is reached by it', async ({
  page,
}) => {
  await newSheet(page, 'SH-end');
  for (const side of ['Right', 'Left'] as const) {
    await cell(page, side, '15').focus();
    await typeDown(page, ['13']);
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await expect(cell(page, side, '15')).toBeFocused();
    await expect(page.getByText(`End of the ${side.toLowerCase()} leg: 1 of 10 girths.`)).toBeVisible();
  }
  await expect(page).toHaveURL(/visits\/new$/);
  await expect(cell(page, 'Left', '1½')).toHaveValue('');
});

test('type, slip, undo: the answer that was taken goes back and the five rungs typed after it stay', async ({ page }) => {
  await newSheet(page, 'SH-undo');
  for (let more = 10; more < 12; more++) await page.getByRole('button', { name: 'One more rung' }).click();
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8', '8 7/8', '9 5/8', '10 1/2', '11 3/8', '21 1/8']);
  await expect(page.getByRole('region', { name: /10½\sin: 21⅛ or 12⅛\?/ })).toBeVisible();
  await page.keyboard.press('s');
  await expect(cell(page, 'Right', '10½')).toHaveValue('12 1/8');
  const after = [
    ['12', '12 5/8'],
    ['13½', '12 7/8'],
    ['15', '12 3/4'],
    ['16½', '12 1/2'],
    ['18', '12 3/8'],
  ] as const;
  await typeDown(
    page,
    after.map(([, girth]) => girth),
  );
  await page.getByRole('button', { name: /^Undo: change 21⅛ at 10½\sin to 12⅛$/ }).click();
  await expect(cell(page, 'Right', '10½')).toHaveValue('21 1/8');
  for (const [place, girth] of after) await expect(cell(page, 'Right', place)).toHaveValue(girth);
  await expect(page.getByRole('button', { name: /^Undo/ })).toHaveCount(0);
  await page.getByRole('button', { name: /^Redo: change/ }).click();
  await expect(cell(page, 'Right', '10½')).toHaveValue('12 1/8');
  await cell(page, 'Right', '10½').fill('12 1/4');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: /^(Undo|Redo)/ })).toHaveCount(0);
  await saved(page);
  await page.reload();
  await expect(cell(page, 'Right', '10½')).toHaveValue('12 1/4');
  await expect(cell(page, 'Right', '18')).toHaveValue('12 3/8');
});

test('a rung that the fold leaves out is said, and measured when asked for; sixteenths stand apart', async ({ page }) => {
  await newSheet(page, 'SH-fold');
  await page.getByLabel('Gluteal fold at, in').fill('21 1/4');
  await expect(page.getByText(/No rung at 21\sin: it lies close to the gluteal fold/)).toBeVisible();
  await expect(cell(page, 'Right', '21')).toHaveCount(0);
  await page.getByRole('button', { name: /Measure at 21\sin too/ }).click();
  await expect(cell(page, 'Right', '21')).toBeVisible();
  await expect(page.getByText(/No rung at/)).toHaveCount(0);
  await page.getByLabel('Gluteal fold at, in').fill('23 3/16');
  await expect(cell(page, 'Right', '23\\s3⁄16')).toBeVisible();
  await expect(page.locator('table[data-sides] th[scope="row"]').last()).toContainText(/23\s3⁄16/);
});

test('downward from the ankle crease is asked about on the sheet', async ({ page }) => {
  await newSheet(page, 'SH-way');
  await page.getByRole('button', { name: 'Change' }).click();
  await page.getByLabel('Direction').selectOption('down');
  await page.getByRole('button', { name: 'Done' }).click();
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8']);
  const question = page.getByRole('region', { name: 'Downward from the ankle crease?' });
  await expect(question).toBeVisible();
  await question.getByRole('button', { name: /Look at zero and direction/ }).click();
  await page.getByLabel('Direction').selectOption('up');
  await expect(question).toHaveCount(0);
});

test('each cell echoes how it was read; what cannot be read stays as typed with its reason, and Enter does not leave it', async ({
  page,
}) => {
  await newSheet(page, 'SH-echo');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8']);
  await expect(cell(page, 'Right', '1½')).toHaveAccessibleDescription(/8⅛\sin · 20\.6\scm/);
  await typeDown(page, ['1,234']);
  await expect(cell(page, 'Right', '3')).toBeFocused();
  await expect(cell(page, 'Right', '3')).toHaveValue('1,234');
  await expect(cell(page, 'Right', '3')).toHaveAccessibleDescription(/can be read two ways/);
  await expect(cell(page, 'Right', '3')).toHaveAttribute('aria-invalid', 'true');
  await expect(cell(page, 'Right', '3')).toHaveAttribute('inputmode', 'decimal');
});

test('arrows, Tab and Escape do what people expect', async ({ page }) => {
  await newSheet(page, 'SH-keys');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8']);
  await page.keyboard.press('ArrowUp');
  await expect(cell(page, 'Right', '3')).toBeFocused();
  await page.keyboard.type('99');
  await page.keyboard.press('Escape');
  await expect(cell(page, 'Right', '3')).toHaveValue('8 3/8');
  await page.keyboard.press('ArrowDown');
  await expect(cell(page, 'Right', '4½')).toBeFocused();
  await page.keyboard.press('Tab');
  await expect(cell(page, 'Left', '4½')).toBeFocused();
  await page.keyboard.press('ArrowLeft');
  await expect(cell(page, 'Right', '4½')).toBeFocused();
});

test('a swapped figure is asked about at once; S takes what would fit, K keeps it and says who kept it', async ({ page }) => {
  await newSheet(page, 'SH-asks');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8', '8 7/8', '9 5/8', '10 1/2', '11 3/8', '21 1/8']);
  const question = page.getByRole('region', { name: /10½\sin: 21⅛ or 12⅛\?/ });
  await expect(question).toBeVisible();
  await expect(page.locator('[aria-live=polite]', { hasText: '21⅛ or 12⅛?' })).toHaveCount(1);
  await page.keyboard.press('s');
  await expect(question).toHaveCount(0);
  await expect(cell(page, 'Right', '10½')).toHaveValue('12 1/8');
  await expect(cell(page, 'Right', '12')).toBeFocused();
  await typeDown(page, ['21 5/8']);
  await expect(page.getByRole('region', { name: /12\sin: 21⅝ or 12⅝\?/ })).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(cell(page, 'Right', '12')).toBeFocused();
  await page.keyboard.press('Enter');
  await page.keyboard.press('k');
  await expect(cell(page, 'Right', '12')).toHaveAccessibleDescription(/kept by R\. Adeyemi \d\d:\d\d/);
  await expect(cell(page, 'Right', '13½')).toHaveValue('');
});

test('a letter that belongs to a unit is typed, not taken for an answer', async ({ page }) => {
  await newSheet(page, 'SH-units');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '81 1/4']);
  await page.keyboard.type('8 1/2 ins');
  await expect(cell(page, 'Right', '4½')).toHaveValue('8 1/2 ins');
});

test('the odd last place follows its landmark, and an extra place with a name stands in order', async ({ page }) => {
  await newSheet(page, 'SH-places');
  await page.getByLabel('Gluteal fold at, in').fill('9 3/8');
  await expect(cell(page, 'Right', '9⅜')).toBeVisible();
  await expect(cell(page, 'Right', '10½')).toHaveCount(0);
  await cell(page, 'Right', '1½').focus();
  await page.keyboard.press('p');
  await page.keyboard.type('2 1/4');
  await page.keyboard.press('Tab');
  await page.keyboard.type('smallest ankle');
  await page.keyboard.press('Enter');
  await expect(cell(page, 'Right', '2¼')).toBeFocused();
  await expect(cell(page, 'Right', '2¼')).toHaveAccessibleName(/smallest ankle/);
  await page.keyboard.press('ArrowUp');
  await expect(cell(page, 'Right', '1½')).toBeFocused();
  await page.keyboard.press('r');
  await page.keyboard.press('Enter');
  await page.getByLabel('heel–instep girth, in').fill('12 1/2');
  await cell(page, 'Right', '1½').fill('8');
  await cell(page, 'Right', '9⅜').fill('11 1/2');
  await finish(page);
});

test('the last visit’s figure shows only once a rung is typed, and measured figures are never filled in', async ({ page }) => {
  await newSheet(page, 'SH-last');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, LEG.slice(0, 10));
  await finish(page);
  await page.goto(`${new URL(page.url()).pathname.split('/visits/')[0]}/visits/new`);
  await expect(cell(page, 'Right', '1½')).toHaveValue('');
  await expect(page.getByLabel('Height, in')).toHaveValue('');
  await expect(page.getByRole('row', { name: /^1½/ })).not.toContainText('8⅛');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/4']);
  await expect(page.getByRole('row', { name: /^1½/ })).toContainText(/8⅛.*\+⅛/);
});

test('a refused box stops the whole visit, is gone to, and nothing typed is lost', async ({ page }) => {
  const address = await newSheet(page, 'SH-stop');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8']);
  await page.keyboard.type('12/');
  await cell(page, 'Left', '1½').fill('8');
  await page.getByRole('button', { name: 'Finish visit' }).click();
  await expect(page.getByRole('alert').filter({ hasText: 'Nothing was saved yet.' })).toContainText('stops at the stroke');
  await expect(cell(page, 'Right', '4½')).toBeFocused();
  await expect(cell(page, 'Right', '4½')).toHaveValue('12/');
  await expect(cell(page, 'Left', '1½')).toHaveValue('8');
  await saved(page);
  await page.goto(address);
  await expect(page.getByText('8⅛')).toHaveCount(0);
});

test('the sheet breaks no rule of WCAG 2.2 A or AA that axe can see, in light and dark, and fits four widths', async ({ page }) => {
  await newSheet(page, 'SH-axe');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8', '8 7/8', '9 5/8', '10 1/2', '11 3/8', '21 1/8', '12/']);
  await page.getByRole('button', { name: 'Change' }).click();
  expect(await screenFaults(page, [1280, 834, 390, 320])).toEqual([]);
});

test('the day of another day than today stands whole in the head of the sheet, on a tablet too', async ({ page }) => {
  await newSheet(page, 'SH-head');
  await page.getByRole('button', { name: 'Change' }).click();
  await page.getByLabel('Day', { exact: true }).fill('2026-09-23');
  const day = page.getByText('Wed 23 Sep 2026');
  for (const width of [1280, 834, 741]) {
    await page.setViewportSize({ width, height: 1000 });
    const [box, leave] = [await day.boundingBox(), await page.getByRole('link', { name: 'Leave, keep the draft' }).boundingBox()];
    if (!box || !leave) throw new Error('no head');
    expect(await day.evaluate(({ scrollWidth, clientWidth }) => scrollWidth - clientWidth), `cut at ${width}`).toBeLessThanOrEqual(0);
    expect(box.x + box.width, `under the key at ${width}`).toBeLessThanOrEqual(leave.x);
    expect(
      await day.evaluate((element) => {
        const { left, top, width: wide, height } = element.getBoundingClientRect();
        return element === document.elementFromPoint(left + wide - 2, top + height / 2);
      }),
      `seen at ${width}`,
    ).toBe(true);
  }
});

test('the sheet sends no inline style and asks nothing outside', async ({ page, baseURL }) => {
  const outside: string[] = [];
  page.on('request', (request) => {
    if (!request.url().startsWith(baseURL ?? '') && !/^(data|blob):/.test(request.url())) outside.push(request.url());
  });
  const address = await newSheet(page, 'SH-style');
  const html = await (await page.request.get(`${address}/visits/new`)).text();
  expect(html.match(/<[^>]+\sstyle=/g) ?? []).toEqual([]);
  expect(outside).toEqual([]);
});
