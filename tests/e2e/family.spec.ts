import { expect, type Page, test } from '@playwright/test';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import { DB_FILE } from './other-clinic';
import { screenFaults } from './screen-faults';

test.describe.configure({ mode: 'serial' });

const NOBODY = { cookies: [], origins: [] };
let shared = '';
let approved = '';
let answered = '';
let replied = '';

async function openForm(page: Page, name: string): Promise<void> {
  await page.goto(`/patients?q=${encodeURIComponent(name)}`);
  await page.getByRole('link', { name }).click();
  await page.getByRole('region', { name: 'Visits' }).getByRole('link').nth(1).click();
  await page.getByRole('link', { name: 'Family page' }).click();
  await expect(page.getByLabel('What you say of the limb')).toBeVisible();
}

test('whom to call by day and by night is asked on the form where the clinic’s texts do not say it, and nothing typed is lost', async ({
  page,
}) => {
  await openForm(page, 'Rui Castellan');
  await page.getByLabel('Language').selectOption('en');
  await page.getByLabel('What you say of the limb').selectOption('same size');
  await page.getByLabel('Is the garment still right?').selectOption('not sure yet: measure again');
  await page.getByLabel('Anything else, in plain words').fill('Bring the cream.');
  await page.getByRole('button', { name: 'Show the page' }).click();
  await expect(page.getByText('Say in one sentence, in the language of the page, whom to call at night.')).toBeVisible();
  await expect(page.getByRole('alert').filter({ hasText: 'look at the boxes below' })).toBeFocused();
  await expect(page.getByLabel('Anything else, in plain words')).toHaveValue('Bring the cream.');
  await expect(page.getByRole('article')).toHaveCount(0);
  await page.getByLabel('Phone', { exact: true }).fill('555-0111');
  await page.getByLabel('At night and at weekends').fill('At night call 555-0122.');
  await page.getByRole('button', { name: 'Show the page' }).click();
  const sheet = page.getByRole('article');
  await expect(sheet.getByText('555-0111', { exact: true })).toBeVisible();
  await expect(sheet.getByText('At night call 555-0122.', { exact: true })).toBeVisible();
  await expect(sheet.getByText('Ask us how to wash it.', { exact: false })).toBeVisible();
  await expect(sheet.getByRole('heading', { name: /^Take it off and call \d+$/ })).toBeVisible();
  await expect(sheet.getByText(/Allergies: not written down here\./)).toBeVisible();
  // Words for the night are of one language: another one begins empty, and the number stays.
  const night = page.getByLabel('At night and at weekends');
  await page.getByLabel('Language').selectOption('es');
  await expect(night).toHaveValue('');
  await expect(night).toHaveAttribute('lang', 'es');
  await expect(page.getByLabel('Phone', { exact: true })).toHaveValue('555-0111');
  await night.fill('De noche, llame al 555-0122.');
  await page.getByLabel('Language').selectOption('de');
  await expect(night).toHaveValue('');
  await page.getByLabel('Language').selectOption('en');
  await expect(night).toHaveValue('At night call 555-0122.');
});

test('a family is not told that a garment fits which the record has outside its band, before somebody says that they saw it fit', async ({
  page,
}) => {
  await openForm(page, 'Ana Brisk');
  const found = page.getByText(/places tighter than its band|places looser than its band/).first();
  await expect(found).toBeVisible();
  await page.getByLabel('What you say of the limb').selectOption('same size');
  await page.getByLabel('Is the garment still right?').selectOption('yes');
  await page.getByLabel('Anything else, in plain words').fill('Come soon.');
  await page.getByRole('button', { name: 'Show the page' }).click();
  await expect(page.getByText(/Choose another answer, or say below that you saw it fit on the (left|right) (leg|arm)\./)).toBeVisible();
  await expect(page.getByLabel('Anything else, in plain words')).toHaveValue('Come soon.');
  expect(await screenFaults(page)).toEqual([]);
  const limb = (await page.getByText(/say below that you saw it fit on the/).textContent())?.match(/fit on the (\w+ \w+)\./)?.[1] ?? '';
  await page.getByLabel(`I saw it on the ${limb}: it fits all the same`).check();
  await page.getByLabel('Language').selectOption('en');
  await page.getByLabel('Phone', { exact: true }).fill('555-0111');
  await page.getByLabel('At night and at weekends').fill('At night call 555-0122.');
  await page.getByRole('button', { name: 'Show the page' }).click();
  await page.getByRole('button', { name: 'I have read it: approve and freeze' }).click();
  await page.waitForURL(/\/family\/[^/]+$/);
  await expect(page.getByText(/than its band/)).toHaveCount(0);
  const database = new BetterSqlite(DB_FILE, { readonly: true });
  const deed = database.prepare('select detail from audit where subject_id = ?').get(new URL(page.url()).pathname.split('/').at(-1));
  database.close();
  const { despite } = JSON.parse((deed as { detail: string }).detail) as { despite: string[] };
  expect(despite.length).toBeGreaterThan(0);
  for (const one of despite)
    expect(one).toMatch(/^Piece \d+, (left|right) (leg|arm): \d+ of \d+ places.* (tighter|looser) than its band \(/);
});

test('the clinic writes its own words for washing and calling', async ({ page }) => {
  await page.goto('/clinic/family-texts');
  const english = page.getByRole('form', { name: 'English' });
  await english.getByLabel('Phone').fill('555-0142');
  await english.getByLabel('When somebody answers').fill('Monday to Friday, 8 to 5.');
  await english.getByLabel('At night and at weekends').fill('At night and on weekends, call 555-0199.');
  await english.getByLabel('Emergency number').fill('911');
  await english.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText(/texts in English/)).toBeVisible();
  const spanish = page.getByRole('form', { name: 'Español' });
  await spanish.getByLabel('How to wear and wash it').fill('Lave una cada día a mano con agua tibia y jabón suave.');
  await spanish.getByLabel('Phone').fill('555-0142');
  await spanish.getByLabel('When somebody answers').fill('De lunes a viernes, de 8 a 5.');
  await spanish.getByLabel('At night and at weekends').fill('De noche y el fin de semana, llame al 555-0199.');
  await spanish.getByLabel('Emergency number').fill('911');
  await spanish.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText(/texts in Español/)).toBeVisible();
  const german = page.getByRole('form', { name: 'Deutsch' });
  await german.getByLabel('Phone').fill('555-0142');
  await german.getByLabel('When somebody answers').fill('Montag bis Freitag, 8 bis 17 Uhr.');
  await german.getByLabel('At night and at weekends').fill('In der Nacht rufen Sie 555-0199 an.');
  await german.getByLabel('Emergency number').fill('112');
  await german.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText(/texts in Deutsch/)).toBeVisible();
});

test('nothing is chosen for the therapist; the page is shown, approved as shown, and frozen', async ({ page }) => {
  await openForm(page, 'Rui Castellan');
  await page.getByLabel('Language').selectOption('en');
  await page.getByRole('button', { name: 'Show the page' }).click();
  await expect(page.getByText('Choose what you say of the limb.')).toBeVisible();
  await page.getByLabel('What you say of the limb').selectOption('grew with the body');
  await page.getByLabel('Is the garment still right?').selectOption('yes, not for long');
  for (const outside of await page.getByLabel(/^I saw it on the (left|right) (leg|arm): it fits all the same$/).all())
    await outside.check();
  await page.getByLabel('Because').selectOption('growing');
  await page.getByLabel('Hours a day').fill('23');
  await page.getByRole('button', { name: 'Show the page' }).click();
  const sheet = page.getByRole('article');
  await expect(sheet.getByRole('heading', { name: 'Rui’s leg and garment' })).toBeVisible();
  await expect(sheet.getByText('Yes, it fits today. It may not fit for long. Rui is growing.')).toBeVisible();
  await expect(sheet.getByText('555-0142', { exact: true })).toBeVisible();
  await page.getByLabel('Hours a day').fill('12');
  await page.getByRole('button', { name: 'I have read it: approve and freeze' }).click();
  await expect(page.getByText('The page has changed since it was shown.')).toBeVisible();
  await expect(sheet.getByText(/Wear it 12 hours a day/)).toBeVisible();
  await page.getByRole('button', { name: 'I have read it: approve and freeze' }).click();
  await page.waitForURL(/\/family\//);
  approved = page.url();
  await expect(page.getByRole('article').getByText(/Wear it 12 hours a day/)).toBeVisible();
  await page.getByRole('button', { name: 'Make a link' }).click();
  shared = new URL(await page.getByLabel('Link', { exact: true }).inputValue()).pathname;
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.getByRole('button', { name: 'Copy the link' }).click();
  await expect(page.getByText('Copied.')).toBeVisible();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(await page.getByLabel('Link', { exact: true }).inputValue());
  await expect(page.getByText(/open until .*, not opened yet/)).toBeVisible();
});

test('the link shows the page without an account, without script, on a phone; nothing leaves the server and nothing is kept', async ({
  browser,
  baseURL,
}) => {
  const context = await browser.newContext({ storageState: NOBODY, javaScriptEnabled: false, viewport: { width: 360, height: 740 } });
  const page = await context.newPage();
  const asked: string[] = [];
  page.on('request', (request) => asked.push(new URL(request.url()).origin));
  const answer = await page.goto(shared);
  expect(new URL(page.url()).pathname).toBe('/share');
  await expect(page.getByRole('heading', { name: 'Rui’s leg and garment' })).toBeVisible();
  expect(new Set(asked)).toEqual(new Set([new URL(baseURL ?? '').origin]));
  const first = await answer?.request().redirectedFrom()?.response();
  expect(first?.headers()).toMatchObject({
    'cache-control': 'no-store',
    'referrer-policy': 'no-referrer',
    'x-robots-tag': 'noindex, nofollow',
  });
  expect(answer?.headers()['cache-control']).toMatch(/no-store/);
  expect(await page.locator('meta[name="robots"]').getAttribute('content')).toContain('noindex');
  const [cookie] = await context.cookies();
  expect(cookie).toMatchObject({ httpOnly: true, path: '/share', sameSite: 'Lax' });
  expect(shared).not.toContain(cookie?.value ?? '-');
  await context.close();
});

test('unknown, withdrawn and replayed links look the same', async ({ page, browser }) => {
  const context = await browser.newContext({ storageState: NOBODY });
  const family = await context.newPage();
  const nothing = async (path: string): Promise<string> => {
    await family.goto(path);
    await expect(family.getByRole('heading', { name: 'There is nothing here now' })).toBeVisible();
    return family.locator('main').innerHTML();
  };
  const unknown = await nothing(`/share/${'x'.repeat(43)}`);
  await family.goto(shared);
  await expect(family.getByRole('heading', { name: 'Rui’s leg and garment' })).toBeVisible();
  await page.goto(approved);
  await expect(page.getByText(/opened 2 times/)).toBeVisible();
  await page.getByRole('button', { name: 'Withdraw' }).click();
  await expect(page.getByText(/withdrawn/)).toBeVisible();
  expect(await nothing('/share')).toBe(unknown);
  expect(await nothing(shared)).toBe(unknown);
  await context.close();
});

/** Width of the text beside the picture, in letters of its own type: a column of one word would have a few. */
async function lettersBeside(page: Page): Promise<number> {
  return page.locator('[data-family-text]').evaluate((text) => {
    const style = getComputedStyle(text);
    return text.getBoundingClientRect().width / (0.5 * Number.parseFloat(style.fontSize));
  });
}

async function sides(page: Page, format: string): Promise<number> {
  const pdf = (await page.pdf({ format, preferCSSPageSize: false, tagged: true })).toString('latin1');
  expect(pdf.includes('/StructTreeRoot'), 'tagged').toBe(true);
  return pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
}

test('on A4 and Letter the page is one side, in large print two, and the text never becomes a column of one word', async ({ page }) => {
  for (const format of ['A4', 'Letter']) {
    await page.goto(approved);
    expect(await sides(page, format), format).toBe(1);
    await page.goto(`${approved}?large`);
    expect(await sides(page, format), `${format}, large`).toBe(2);
  }
  for (const large of ['', '?large'])
    for (const width of [1280, 834]) {
      await page.setViewportSize({ width, height: 900 });
      await page.goto(`${approved}${large}`);
      expect(await lettersBeside(page), `${large} at ${width}`).toBeGreaterThan(30);
    }
});

for (const { language, name, next } of [
  { language: 'es', name: 'Spanish', next: 'Qué sigue ahora' },
  { language: 'de', name: 'German', next: 'Wie es weitergeht' },
])
  test(`the page in ${name} is ${name}, on A4 and Letter one side, and in large print two`, async ({ page }) => {
    await openForm(page, 'Tess Ibarra');
    await page.getByLabel('Language').selectOption(language);
    await page.getByLabel('What you say of the limb').selectOption('bigger than we thought');
    await page.getByLabel('Is the garment still right?').selectOption('no');
    await page.getByRole('button', { name: 'Show the page' }).click();
    const sheet = page.getByRole('article');
    await expect(sheet).toHaveAttribute('lang', language);
    await expect(sheet.getByRole('heading', { name: next })).toBeVisible();
    await page.getByRole('button', { name: 'I have read it: approve and freeze' }).click();
    await page.waitForURL(/\/family\//);
    const own = page.url();
    for (const format of ['A4', 'Letter']) {
      await page.goto(own);
      expect(await sides(page, format), format).toBe(1);
      expect(await lettersBeside(page)).toBeGreaterThan(30);
      await page.goto(`${own}?large`);
      expect(await sides(page, format), `${format}, large`).toBe(2);
      expect(await lettersBeside(page)).toBeGreaterThan(30);
    }
    if (language === 'de') answered = own;
  });

test('a family answers by the link on a phone without script, in its language; a refused reply keeps what was typed, the fifth of a day is refused in words', async ({
  page,
  browser,
}) => {
  await page.goto(answered);
  await page.getByRole('button', { name: 'Make a link' }).click();
  const link = new URL(await page.getByLabel('Link', { exact: true }).inputValue()).pathname;
  const context = await browser.newContext({ storageState: NOBODY, javaScriptEnabled: false, viewport: { width: 390, height: 844 } });
  const family = await context.newPage();
  await family.goto(link);
  replied = link;
  const form = family.locator('form');
  const send = () => form.getByRole('button', { name: 'An die Klinik schicken' }).click();
  await send();
  await expect(family.getByText('Füllen Sie zuerst ein Feld aus.')).toBeVisible();
  await form.getByLabel('Wie viele Stunden am Tag wurde sie getragen?').fill('25');
  await form.getByRole('combobox').nth(2).selectOption('red');
  await form.getByRole('checkbox').check();
  await form.getByLabel('Ein paar Worte, wenn Sie wollen').fill('Nachts reibt es <b>sehr</b>.');
  await send();
  await expect(family.getByText('Schreiben Sie die Stunden als Zahl von 0 bis 24.')).toBeVisible();
  await expect(form.getByLabel('Wie viele Stunden am Tag wurde sie getragen?')).toHaveValue('25');
  await expect(form.getByRole('combobox').nth(2)).toHaveValue('red');
  await expect(form.getByRole('checkbox')).toBeChecked();
  await expect(form.getByLabel('Ein paar Worte, wenn Sie wollen')).toHaveValue('Nachts reibt es <b>sehr</b>.');
  await form.getByLabel('Wie viele Stunden am Tag wurde sie getragen?').fill('6,5');
  await send();
  await expect(family.getByText('Danke. Es ist geschickt.')).toBeVisible();
  expect(new URL(family.url()).pathname).toBe('/share');
  await expect(family.getByText('6,5 Stunden am Tag getragen')).toBeVisible();
  for (let more = 2; more <= 4; more++) {
    await form.getByLabel('Wie viele Stunden am Tag wurde sie getragen?').fill(String(more));
    await send();
    await expect(family.getByText(`${more} Stunden am Tag getragen`)).toBeVisible();
  }
  await form.getByLabel('Wie viele Stunden am Tag wurde sie getragen?').fill('5');
  await send();
  await expect(family.getByText('Mehr als 4 am Tag gehen nicht.')).toBeVisible();
  await expect(form.getByLabel('Wie viele Stunden am Tag wurde sie getragen?')).toHaveValue('5');
  await context.close();
});

test('a mark is chosen by pressing on the picture or by keyboard; the form breaks no rule that axe can see and fits 320 px', async ({
  page,
  browser,
}) => {
  await page.goto(answered);
  await page.getByRole('button', { name: 'Make a link' }).click();
  const link = new URL(await page.getByLabel('Link', { exact: true }).inputValue()).pathname;
  const context = await browser.newContext({ storageState: NOBODY });
  const family = await context.newPage();
  await family.goto(link);
  await family.locator('a[href="#reply-mark-2"]').click();
  await expect(family.locator('#reply-mark-2')).toBeFocused();
  await family.keyboard.press('Escape');
  await family.locator('#reply-mark-2').selectOption('sore');
  await expect(family.locator('a[href="#reply-mark-2"]')).toHaveAttribute('data-chosen', 'true');
  await family.setViewportSize({ width: 390, height: 844 });
  await family.locator('#reply-hours').fill('99');
  await family.getByRole('button', { name: 'An die Klinik schicken' }).click();
  await expect(family.getByRole('alert').filter({ hasText: /./ }).first()).toBeFocused();
  await expect(family.getByRole('alert').filter({ hasText: /./ }).first()).toBeInViewport();
  expect(await screenFaults(family)).toEqual([]);
  await context.close();
});

test('the therapist sees it as the family’s, on Today too, and says what was done; then it is no line any more', async ({ page }) => {
  await page.goto('/patients?q=Tess%20Ibarra');
  await page.getByRole('link', { name: 'Tess Ibarra' }).click();
  const next = page.getByRole('region', { name: 'Next' }).getByRole('region', { name: 'Asked by the family' });
  await expect(next.getByRole('heading', { name: 'Call back: the family asks to be rung' })).toBeVisible();
  await expect(next.getByText(/“Nachts reibt es <b>sehr<\/b>\.”/)).toBeVisible();
  await expect(next.getByRole('form', { name: /^Answer to the reply of / })).toBeVisible();
  await expect(page.getByText('Nothing is asked today.')).toHaveCount(0);
  const panel = page.getByRole('region', { name: 'Family pages' });
  // Hours alone came last and ask for nothing; what is to be answered is counted.
  await expect(panel.getByText(/Told by the family, .*Not answered yet/)).toHaveCount(0);
  await expect(page.getByRole('region', { name: 'Dates' }).getByText('Call back: the family asks to be rung')).toBeVisible();
  const today = await page.context().newPage();
  await today.goto('/');
  await expect(today.getByText('Call back: the family asks to be rung')).toHaveCount(1);
  await today.close();
  await panel.getByRole('link', { name: /Told by the family, 1 not answered/ }).click();
  const reply = page.getByRole('region', { name: /^Reply of / }).filter({ hasText: 'asks to be rung' });
  await expect(reply.getByText('“Nachts reibt es <b>sehr</b>.”')).toBeVisible();
  await expect(reply.getByText(/arm, elbow: a red mark/)).toBeVisible();
  expect(await screenFaults(page)).toEqual([]);
  await reply.getByLabel('What was done').selectOption('rung');
  await reply.getByLabel('In a few words').fill('seam looked at on Friday');
  await reply.getByRole('button', { name: 'Note it' }).click();
  await expect(reply.getByText(/^Rung on .* by .*: seam looked at on Friday\.$/)).toBeVisible();
  await page.goto('/');
  await expect(page.getByText('Call back: the family asks to be rung')).toHaveCount(0);
  await page.goto('/patients?q=Tess%20Ibarra');
  await page.getByRole('link', { name: 'Tess Ibarra' }).click();
  await expect(page.getByText('Call back: the family asks to be rung')).toHaveCount(0);
  await page.getByRole('link', { name: 'Progress report' }).click();
  const told = page.getByRole('listitem').filter({ hasText: 'asks to be rung' });
  await expect(told).toContainText(/Rung on .* by [^:]*\.$/);
});

test('by the same link the family sees that its reply was answered, on which day, and not what the clinic wrote about it', async ({
  browser,
}) => {
  const context = await browser.newContext({ storageState: NOBODY, javaScriptEnabled: false, viewport: { width: 390, height: 844 } });
  const family = await context.newPage();
  await family.goto(replied);
  const sent = family.getByRole('listitem').filter({ hasText: '6,5 Stunden am Tag getragen' });
  await expect(sent.getByText(/^Wir haben Sie am \d+\. \S+ angerufen\.$/)).toBeVisible();
  // Hours alone, on a page without a plan of hours, ask for nothing: nobody has to note that they were read.
  await expect(family.getByText('Es ist angekommen.')).toHaveCount(3);
  await expect(family.getByText('seam looked at on Friday')).toHaveCount(0);
  await context.close();
});

test('screens of the family page break no rule that axe can see, in light and dark, and fit 320 px', async ({ page }) => {
  for (const place of [approved, `${approved}?large`, '/clinic/family-texts', '/share']) {
    await page.goto(place);
    expect(await screenFaults(page), place).toEqual([]);
  }
});
