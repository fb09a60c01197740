import { type Browser, expect, type Page, test } from '@playwright/test';
import ICAL from 'ical.js';
import { PASSWORD, PEOPLE } from './people';
import { screenFaults } from './screen-faults';

/** One patient, from the order to the piece that replaces it; each test goes on from the last. */
test.describe.configure({ mode: 'serial' });

async function openLia(page: Page): Promise<string> {
  await page.goto('/patients?q=Lia');
  await page.getByRole('link', { name: 'Lia Fontane' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Lia Fontane' })).toBeVisible();
  return new URL(page.url()).pathname;
}

async function fillOrder(page: Page, reason: string): Promise<void> {
  await page.getByLabel('Garment', { exact: true }).selectOption({ label: 'thigh-high, foot to below the gluteal fold' });
  await page.getByLabel('Why it is ordered').selectOption(reason);
}

/** Somebody else, signed in on a machine of their own. */
async function second(browser: Browser): Promise<Page> {
  const page = await (await browser.newContext({ storageState: { cookies: [], origins: [] } })).newPage();
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').fill(PEOPLE.second.email);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL((url) => url.pathname === '/');
  return page;
}

/** Corrects the weight of the newest visit: a new state of the visit, with its reason. */
async function correctWeight(page: Page, patient: string): Promise<void> {
  await page.goto(patient);
  const visit = await page.getByRole('region', { name: 'Visits' }).getByRole('link').nth(1).getAttribute('href');
  await page.goto(`${visit}/correct`, { waitUntil: 'networkidle' });
  await page.getByLabel(/^Weight/).fill('103.5');
  const see = page.getByRole('button', { name: 'See what changes' });
  const note = page.getByText('again to leave it so.');
  await see.click();
  await expect(page.getByRole('heading', { name: 'What this correction changes' }).or(note).first()).toBeVisible();
  if (await note.isVisible()) await see.click();
  await page.getByLabel('Why it is corrected').fill('scale read again');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await page.waitForURL(`**${visit}`);
}

async function answerAll(page: Page): Promise<void> {
  for (const box of await page.locator('input[name^="answer"]').all()) await box.fill('seen today, the limb is stable');
}

async function fitZones(page: Page, odd: Readonly<Record<string, string>> = {}): Promise<void> {
  await expect(page.getByRole('form', { name: 'First fit' })).toBeVisible();
  for (const zone of await page.locator('select[name^="zone/"]').all()) {
    const name = (await zone.getAttribute('name')) ?? '';
    await zone.selectOption(odd[name.slice('zone/'.length)] ?? 'good');
  }
}

test('an order says beside each box what stops it and keeps what was typed', async ({ page }) => {
  await openLia(page);
  await page.getByRole('link', { name: 'New order' }).click();
  await page.getByLabel('Garment', { exact: true }).selectOption('');
  await page.getByLabel('Note for the maker').fill('soft seam at the knee');
  await page.getByLabel('Class', { exact: true }).fill('2');
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await expect(page.getByText('Choose what the garment covers.')).toBeVisible();
  await expect(page.getByText('Choose why it is ordered.')).toBeVisible();
  await expect(page.getByText('A class goes with its scheme').first()).toBeVisible();
  await expect(page.getByLabel('Note for the maker')).toHaveValue('soft seam at the knee');
  await page.getByLabel('Class', { exact: true }).fill('');
  await page.getByLabel('Room to let out').fill('3/4');
  await page.getByLabel('Option 1').selectOption('expansion panel: expansion panel');
  await page.getByLabel('Place', { exact: true }).first().fill('back of the thigh');
  await page.getByLabel('Width', { exact: true }).first().fill('1');
  await fillOrder(page, 'outgrown');
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await expect(page.getByRole('heading', { name: 'Order 1: thigh-high, foot to below the gluteal fold' })).toBeVisible();
  await expect(page.getByText('expansion panel 1 in, back of the thigh').first()).toBeVisible();
  await expect(page.getByText('Not sent yet')).toBeVisible();
});

test('it is checked by a second person, never by the one who wrote it, and its figures are frozen when sent', async ({ page, browser }) => {
  await openLia(page);
  await page.getByRole('link', { name: /^Order 1,/ }).click();
  await page.waitForURL(/\/orders\//);
  const own = page.url();
  await expect(page.getByText('You wrote this order as it stands.')).toBeVisible();
  await expect(page.getByRole('button', { name: 'I have checked the figures' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Freeze the figures and mark as sent' }).click();
  await expect(page.getByText('Nobody has checked the figures yet.')).toBeVisible();
  const other = await second(browser);
  await other.goto(own);
  await other.getByRole('button', { name: 'I have checked the figures' }).click();
  await expect(other.getByRole('heading', { name: 'Second person' })).toHaveCount(0);
  const stale = await page.context().newPage();
  await stale.goto(own);
  await correctWeight(page, own.replace(/\/orders\/.*/, ''));
  await stale.getByRole('button', { name: 'Freeze the figures and mark as sent' }).click();
  await expect(stale.getByText('The visit was corrected since this page was opened.')).toBeVisible();
  await stale.goto(own);
  await expect(stale.getByText('they want checking again')).toBeVisible();
  await expect(stale.getByRole('button', { name: 'I have checked the figures' })).toHaveCount(0);
  await stale.close();
  await other.goto(own);
  await other.getByRole('button', { name: 'I have checked the figures' }).click();
  await expect(other.getByRole('heading', { name: 'Second person' })).toHaveCount(0);
  await other.context().close();
  await page.goto(own);
  await answerAll(page);
  await page.getByRole('button', { name: 'Freeze the figures and mark as sent' }).click();
  await expect(page.getByText(/^Sent .*checked by K\. Dunmore.*Figures frozen as sent\.$/)).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Pieces 3 and 4 are awaited' })).toBeVisible();
  await expect(page.getByRole('region', { name: 'Not taken: sent without these' })).toContainText(
    /foot length.*Why it leaves without: “.+” \(\D+, \d+ \w+ \d{4}\)\.$/,
  );
  const kept = process.env.E2E_PICTURES ? { path: `${process.env.E2E_PICTURES}/order.pdf` } : {};
  const sheet = (await page.pdf({ format: 'A4', ...kept })).toString('latin1');
  expect(sheet.match(/\/Type\s*\/Page\b/g), 'the sheet is one side of A4').toHaveLength(1);
});

test('it is delivered; a first fit that ends in a remake sends the piece back with its coded reason', async ({ page }) => {
  await openLia(page);
  await page.getByRole('link', { name: /^Order 1,/ }).click();
  await page.getByRole('button', { name: 'All came' }).click();
  await page.getByRole('link', { name: 'piece 3, delivered' }).click();
  await page.waitForURL(/\/pieces\//);
  await page.getByLabel('What follows').selectOption('remake');
  await fitZones(page, { calf: 'too tight' });
  await page.getByRole('button', { name: 'Record the first fit' }).click();
  await expect(page.getByText('Choose the reason: counted over the year')).toBeVisible();
  await page.getByLabel('Reason, when it goes back').selectOption('girth wrong');
  await page.getByRole('button', { name: 'Record the first fit' }).click();
  await expect(page.getByText(/remake; calf too tight; girth wrong/)).toBeVisible();
  await expect(page.getByRole('button', { name: 'It came' })).toBeVisible();
});

test('two pieces in turn share the days; one kept as a spare does not', async ({ page }) => {
  await openLia(page);
  const pieces = page.getByRole('region', { name: 'Pieces' });
  for (const name of ['Piece 3', 'Piece 4']) {
    await pieces.getByRole('link', { name }).click();
    if (name === 'Piece 3') await page.getByRole('button', { name: 'It came' }).click();
    await fitZones(page);
    await page.getByLabel('What follows').selectOption('keep');
    await expect(page.getByLabel('Hours a day in the end'), 'of a piece of the day nothing is guessed').toHaveValue(
      name === 'Piece 3' ? '' : '12',
    );
    await page.getByLabel('Hours a day in the end').fill('12');
    if (name === 'Piece 3') {
      await page.getByRole('button', { name: 'Record the first fit' }).click();
      await expect(page.getByText('Ask them on the page of cautions, or say here why not.')).toBeVisible();
    }
    await page.getByLabel('Why they were not asked').fill('asked on paper today');
    await page.getByRole('button', { name: 'Record the first fit' }).click();
    await expect(page.getByText(/2 to 12 hours a day over 14 days; early call due/)).toBeVisible();
    await expect(page.getByText(/wear-in/).first()).toBeVisible();
    await page.getByRole('link', { name: 'Back to the patient' }).click();
  }
  await pieces.getByRole('link', { name: 'Piece 4' }).click();
  await page.getByText('Turn, alteration, out of use').click();
  await page.getByLabel('From now on').selectOption('spare');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(page.getByRole('row', { name: /kept as a spare/ })).toBeVisible();
});

test('no more room is let out than was sewn in', async ({ page }) => {
  await openLia(page);
  await page.getByRole('region', { name: 'Pieces' }).getByRole('link', { name: 'Piece 3' }).click();
  await page.getByLabel('Width let out, in total').fill('1');
  await page.getByRole('button', { name: 'Record the let-out' }).click();
  await expect(page.getByText(/Only 1\.9.cm \(0\.75.in\) of room is left/)).toBeVisible();
  await page.getByLabel('Width let out, in total').fill('1/2');
  await page.getByRole('button', { name: 'Record the let-out' }).click();
  await expect(page.getByText('3/4 in in total, ½ in let out')).toBeVisible();
});

test('an outgrown piece is replaced: out of use with its reason, a new order that shows what differs', async ({ page }) => {
  const own = await openLia(page);
  await page.getByRole('region', { name: 'Pieces' }).getByRole('link', { name: 'Piece 2' }).click();
  await page.getByText('Turn, alteration, out of use').click();
  await page.getByRole('button', { name: 'Take it out of use' }).click();
  await expect(page.getByText('Choose why it goes out of use.')).toBeVisible();
  await page.getByLabel('Reason', { exact: true }).selectOption('outgrown');
  await page.getByRole('button', { name: 'Take it out of use' }).click();
  await expect(page.getByText(/, outgrown$/).first()).toBeVisible();
  await page.goto(`${own}/orders/new?after=3&reason=outgrown`);
  await page.getByLabel('Reduction, %').fill('20');
  await page.getByLabel('How many of them wait').fill('2');
  await page.getByRole('button', { name: 'Show the room for these figures' }).click();
  await expect(page.getByRole('status').filter({ hasText: 'Proposed: ' })).toBeVisible();
  await expect(page.getByLabel('How many of them wait'), 'nothing that was typed is lost').toHaveValue('2');
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await expect(page.getByText('At least one piece is made at once')).toBeVisible();
  await page.getByLabel('How many of them wait').fill('1');
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await expect(page.getByText('2 pieces: 1 to be made now, 1 only when released after the first fit')).toBeVisible();
  await expect(page.getByRole('region', { name: /^What differs/ })).toContainText(/Reduction20.%.*, was 15.%/);
  await page.getByText('Cancel this order').click();
  await page.getByRole('button', { name: 'Cancel the order' }).click();
  await expect(page.getByText('Say why it is cancelled.')).toBeVisible();
  await page.getByLabel('Why', { exact: true }).fill('ordered by the ward');
  await page.getByRole('button', { name: 'Cancel the order' }).click();
  await expect(page.getByText('Order 2, cancelled')).toBeVisible();
});

test('a payer’s rule is written down, chosen for a patient, and holds an order to its clock', async ({ page }) => {
  await page.goto('/clinic/coverage');
  await page.getByLabel('Payer').fill('County fund');
  await page.getByLabel('Where the rule is written').fill('contract of 2026, page 4');
  await page.getByLabel('Pieces for each limb').first().fill('3');
  await page.getByLabel('in so many months').first().fill('6');
  await page.getByRole('button', { name: 'Save the rule' }).click();
  await expect(page.getByText('3 by day for each limb in any 6 months.')).toBeVisible();
  const own = await openLia(page);
  await page.getByText('Choose the rule').click();
  await page.getByLabel('Payer').selectOption('County fund');
  await page.getByRole('region', { name: 'Coverage' }).getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText(/Left leg, day: [1-9] of 3 used since/)).toBeVisible();
  await page.goto(`${own}/orders/new?after=3&reason=worn out`);
  await page.getByLabel('Pieces', { exact: true }).fill('3');
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await expect(page.getByText(/County fund covers \d more now, this order is for 3/)).toBeVisible();
});

test('a caution that says stop holds the order and the hand-over until it is lifted by name, reason and the prescriber’s word', async ({
  page,
}) => {
  test.setTimeout(60_000);
  const own = await openLia(page);
  const skin = page.getByRole('group', { name: 'Fragile, open or leaking skin', exact: true });
  const answer = async (said: 'Yes' | 'No', box: string, words: string) => {
    await page.goto(`${own}/cautions`);
    if (said === 'Yes')
      await page
        .locator('summary', { hasText: 'Answered, not due again' })
        .evaluateAll((all) => all.map((one) => (one as HTMLElement).click()));
    await skin.getByRole('radio', { name: said, exact: true }).check();
    await skin.getByLabel(box).fill(words);
    await page.getByRole('button', { name: 'Keep the answers' }).click();
    await expect(page.getByRole('region', { name: /^Answers so far/ })).toContainText(words);
  };
  const lift = async (form: string) => {
    await page.locator(`#${form}-prescriber0`).fill('Dr Hale');
    await page.locator(`#${form}-word0`).fill('go on, by phone today');
    await page.locator(`#${form}-reason0`).fill('wound under a dressing');
  };
  await page.goto(`${own}/orders/new?after=3&reason=worn out`);
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await page.waitForURL(/\/orders\/[0-9a-f-]{36}$/);
  const order = page.url();
  await answer('Yes', 'In a few words', 'heel, since Monday');
  await page.goto(order);
  await expect(page.getByRole('group', { name: 'Stop: Fragile, open or leaking skin' })).toContainText('heel, since Monday');
  await answerAll(page);
  await page.getByRole('checkbox', { name: /It goes out unchecked/ }).check();
  const send = page.getByRole('button', { name: 'Freeze the figures and mark as sent' });
  await send.click();
  await expect(page.getByText('Name the prescriber who decided it.')).toBeVisible();
  await expect(page.getByText('Write what the prescriber said, on which day and how.')).toBeVisible();
  await lift('send');
  await send.click();
  await expect(page.getByText(/Figures frozen as sent\.$/)).toBeVisible();
  await expect(page.getByRole('row', { name: /Fragile, open or leaking skin.*Dr Hale.*go on, by phone today/ })).toBeVisible();
  await page.getByRole('button', { name: 'All came' }).click();
  await expect(page.getByText('Name the prescriber who decided it.')).toBeVisible();
  await lift('deliver');
  await page.getByRole('button', { name: 'All came' }).click();
  await page
    .getByRole('link', { name: /^piece \d+, delivered$/ })
    .last()
    .click();
  await page.waitForURL(/\/pieces\//);
  await fitZones(page);
  await page.getByLabel('What follows').selectOption('keep');
  await page.getByLabel('Hours a day in the end').fill('12');
  await page.getByLabel('Why they were not asked').fill('asked on paper today');
  await page.getByRole('button', { name: 'Record the first fit' }).click();
  await expect(page.getByText('Say why it goes on although this caution says stop.')).toBeVisible();
  await lift('first-fit');
  await page.getByRole('button', { name: 'Record the first fit' }).click();
  await expect(page.getByText(/hours a day over 14 days; early call due/)).toBeVisible();
  await answer('No', 'What has changed', 'closed, seen by the nurse');
  await expect(page.getByRole('region', { name: /^Answers so far/ })).toContainText('A hold was lifted.');
});

test('what an order was begun for stays on Today until it is sent, and is back when it is cancelled', async ({ page }) => {
  const asked = async () => {
    await page.goto('/?q=Ana&kind=order');
    return page.locator('tr[data-line]').filter({ hasText: 'Order for the left leg' });
  };
  const why = (await (await asked()).getByText(/outgrown from/).textContent()) ?? '';
  await page.getByRole('link', { name: /^Answer: Order for the left leg/ }).click();
  await page.getByRole('button', { name: 'Start the order' }).click();
  await page.waitForURL(/\/orders\/new/);
  await expect(page.getByRole('complementary', { name: 'The ladder it is made to' })).toContainText(/left legcentimetres/);
  await page.getByLabel('Garment', { exact: true }).selectOption({ label: 'calf sleeve' });
  await page.getByLabel('Why it is ordered').selectOption('outgrown');
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await page.waitForURL(/\/orders\/[0-9a-f-]{36}$/);
  const order = page.url();
  await expect(await asked()).toContainText(`Begun, not done yet. ${why}`);
  await page.goto(order);
  await answerAll(page);
  await page.getByRole('checkbox', { name: /It goes out unchecked/ }).check();
  await page.getByRole('button', { name: 'Freeze the figures and mark as sent' }).click();
  await expect(page.getByText(/Figures frozen as sent\.$/)).toBeVisible();
  // What stands there now is the day of the piece that was ordered.
  await expect(await asked()).not.toContainText(why);
  await page.goto(order);
  await page.getByText('Cancel this order').click();
  await page.getByLabel('Why', { exact: true }).fill('ordered by the ward');
  await page.getByRole('button', { name: 'Cancel the order' }).click();
  await expect(page.getByText(/Order \d+, cancelled/)).toBeVisible();
  await expect(await asked()).toContainText(why);
});

test('an order begun beside its prompt marks it begun, the prompt leads to it, and it is open again when the order is given up', async ({
  page,
}) => {
  const line = async () => {
    await page.goto('/?q=Ana&kind=order');
    return page.locator('tr[data-line]').filter({ hasText: 'Order for the left leg' });
  };
  await expect(await line()).not.toContainText('Begun');
  await page.getByRole('link', { name: /^Ana/ }).first().click();
  await page.waitForURL(/\/patients\/[0-9a-f-]{36}/);
  const own = new URL(page.url()).pathname;
  await page.goto(`${own}/orders/new`);
  const beside = page.getByRole('complementary', { name: /The ladders? it is made to/ });
  await page.getByLabel('Garment', { exact: true }).selectOption({ label: 'waist-high, both legs' });
  await expect(beside.getByText(/^(left|right) leg$/)).toHaveText(['left leg', 'right leg']);
  await page.getByLabel('Garment', { exact: true }).selectOption({ label: 'calf sleeve' });
  await expect(beside.getByText(/^(left|right) leg$/)).toHaveText(['left leg']);
  await page.getByLabel('Why it is ordered').selectOption('outgrown');
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await page.waitForURL(/\/orders\/[0-9a-f-]{36}$/);
  const order = new URL(page.url()).pathname;
  await expect(await line()).toContainText('Begun, not done yet.');
  await page.getByRole('link', { name: /^Answer: Order for the left leg/ }).click();
  await page.getByRole('button', { name: /start the order/i }).click();
  await page.waitForURL((url) => url.pathname === order);
  await page.getByText('Cancel this order').click();
  await page.getByLabel('Why', { exact: true }).fill('begun by mistake');
  await page.getByRole('button', { name: 'Cancel the order' }).click();
  await expect(page.getByText(/Order \d+, cancelled/)).toBeVisible();
  await expect(await line()).toBeVisible();
  await expect(await line()).not.toContainText('Begun');
});

test('a calendar address shows dates without names until it is withdrawn', async ({ page, request }) => {
  await page.goto('/clinic/calendar');
  await page.getByRole('button', { name: 'Open a calendar address' }).click();
  const address = new URL(await page.getByLabel('Address for the calendar program').inputValue()).pathname;
  const answer = await request.get(address, { headers: { cookie: '' } });
  expect(answer.headers()['content-type']).toBe('text/calendar; charset=utf-8');
  const file = await answer.text();
  const events = new ICAL.Component(ICAL.parse(file)).getAllSubcomponents('vevent');
  expect(events.length).toBeGreaterThan(3);
  expect(file).not.toMatch(/Lia|Fontane|burn|lymph/i);
  await page.getByRole('button', { name: 'Withdraw' }).first().click();
  await expect(page.getByText(/^withdrawn/).first()).toBeVisible();
  expect((await request.get(address)).status()).toBe(404);
  expect((await request.get(`/calendar/${'x'.repeat(43)}`)).status()).toBe(404);
});

test('every line of the drawing leads to its own row of figures, on screen and on paper', async ({ page }) => {
  await openLia(page);
  await page.goto(
    await page
      .locator('main a[href*="/orders/"]:not([href$="/new"])')
      .first()
      .evaluate((link) => (link as HTMLAnchorElement).href),
  );
  for (const media of ['screen', 'print'] as const) {
    await page.emulateMedia({ media });
    const drawing = await page.locator('[data-drawing="row-outline"]').boundingBox();
    const figures = await page.locator('[data-order-figures] tbody').boundingBox();
    expect(Math.abs((drawing?.y ?? 0) - (figures?.y ?? 99)), media).toBeLessThan(2);
    expect(Math.abs((drawing?.height ?? 0) - (figures?.height ?? 99)), media).toBeLessThan(2);
    const heights = await page
      .locator('[data-order-figures] tbody tr')
      .evaluateAll((all) => all.map((row) => row.getBoundingClientRect().height));
    expect(Math.max(...heights) - Math.min(...heights), media).toBeLessThan(0.75);
  }
});

test('screens of orders, pieces, coverage and calendar break no rule that axe can see, in light and dark, and fit 320 px', async ({
  page,
}) => {
  test.setTimeout(180_000);
  const own = await openLia(page);
  const links = await page.locator('main a').evaluateAll((all) => all.map((link) => new URL((link as HTMLAnchorElement).href).pathname));
  const orders = links.filter((link) => /\/(orders|pieces)\/[0-9a-f-]{36}$/.test(link)).slice(0, 3);
  for (const place of [`${own}/orders/new`, ...orders, '/pieces', '/clinic/coverage', '/clinic/calendar']) {
    await page.goto(place);
    expect(await screenFaults(page), place).toEqual([]);
  }
});
