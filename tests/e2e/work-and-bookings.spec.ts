import { expect, type Page, test } from '@playwright/test';
import { addDays, type CalendarDay, dayNumber, showDay } from '@/lib/units/calendar-day';
import { screenFaults } from './screen-faults';

const today = new Intl.DateTimeFormat('en-CA', { timeZone: 'Europe/London' }).format(new Date()) as CalendarDay;
const weekday = (day: CalendarDay) => (dayNumber(day) + 4) % 7;
/** The next Saturday that is at least a week away. */
const saturday = addDays(today, 7 + ((6 - weekday(addDays(today, 7)) + 7) % 7));

async function open(page: Page, name: string): Promise<string> {
  await page.goto(`/patients?q=${encodeURIComponent(name)}`);
  await page.getByRole('link', { name, exact: true }).click();
  await expect(page.getByRole('heading', { level: 1, name })).toBeVisible();
  return new URL(page.url()).pathname;
}

test('who a person is, for the work: refused at its boxes, kept, said where it is used, corrected with a reason; both states stay', async ({
  page,
}) => {
  const own = await open(page, 'Tess Ibarra');
  await page.getByRole('link', { name: 'Write it down' }).click();
  await page.getByLabel('Name, called first').fill('Ines Ibarra');
  await page.getByLabel('Relation of contact 1').fill('sister');
  await page.getByLabel('Phone of contact 1').fill('555-0177');
  await page.getByLabel('Referred on').fill(addDays(today, -30));
  await page.getByLabel('Referral ends on').fill(addDays(today, -40));
  await page.getByLabel('Prescriber', { exact: true }).fill('Dr. Pell');
  await page.getByLabel('Burnt area, % of the body’s surface').fill('120');
  await page.getByLabel('Hand used for most things').selectOption('left');
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(
    page.getByText(`It ends on ${showDay(addDays(today, -40))}, before it begins on ${showDay(addDays(today, -30))}.`),
  ).toBeVisible();
  await expect(page.getByText('“120” is not a part of the body’s surface: 0 to 100 %.')).toBeVisible();
  await expect(page.getByLabel('Name, called first')).toHaveValue('Ines Ibarra');
  await expect(page.getByLabel('Hand used for most things')).toHaveValue('left');
  await page.getByLabel('Burnt area, % of the body’s surface').fill('');
  await page.getByLabel('Referral ends on').fill(addDays(today, 20));
  expect(await screenFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page).toHaveURL(own);
  await expect(page.getByText('Call Ines Ibarra (sister), 555-0177')).toBeVisible();
  await expect(page.getByText(/arm is the dominant one, .*\(Smoot 2014\)/).first()).toBeVisible();
  await expect(page.getByText('Ask for the next referral').first()).toBeVisible();
  await page.goto(`${own}/work`);
  await page.getByLabel('Stage', { exact: true }).fill('II');
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText('Say in a few words why it is changed.')).toBeVisible();
  await page.getByLabel('Why it is changed').fill('stage asked');
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText('stage II')).toBeVisible();
  await page.goto(`${own}/work`);
  const history = page.locator('.history-table').getByRole('row');
  await expect(history.nth(1)).toContainText('stage II');
  await expect(history.nth(2)).not.toContainText('stage II');
});

test('working days are set; a visit is booked from a prompt on a closed day only when that is said, moved, missed, and rung about', async ({
  page,
}) => {
  test.setTimeout(180_000);
  await page.goto('/clinic/diary');
  await page.getByLabel('Saturday').uncheck();
  await page.getByLabel('Sunday').uncheck();
  await page.getByLabel('Closed from, 1').fill(addDays(today, 60));
  await page.getByLabel('to, 1', { exact: true }).fill(addDays(today, 50));
  await page.getByLabel('Why, 1').fill('holidays');
  await page.getByLabel('Visits a day').fill('1');
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(
    page.getByText(`It ends on ${showDay(addDays(today, 50))}, before it begins on ${showDay(addDays(today, 60))}.`),
  ).toBeVisible();
  await page.getByLabel('to, 1', { exact: true }).fill('');
  expect(await screenFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText('working days').last()).toBeVisible();

  const own = await open(page, 'Rui Castellan');
  await page.goto(`${own}/bookings`);
  await page.getByLabel('Day').fill(saturday);
  await page.getByLabel('Time').fill('09:30');
  await page.getByRole('button', { name: 'Book it' }).click();
  await expect(page.getByText(/The clinic does not work on Saturdays\./)).toBeVisible();
  await expect(page.getByLabel('Day')).toHaveValue(saturday);
  expect(await screenFaults(page)).toEqual([]);
  await page.getByLabel('Book it all the same').check();
  await page.getByRole('button', { name: 'Book it' }).click();
  await expect(page.getByRole('cell', { name: 'booked', exact: true })).toBeVisible();
  await page.goto(`/diary?from=${saturday}`);
  const inDiary = page.locator('tbody').filter({ hasText: 'The clinic does not work on Saturdays. 1 booked.' });
  await expect(inDiary.getByRole('row').nth(1)).toContainText(/09:30.*Rui Castellan.*Booked for .* at 09:30\..*booked/);
  expect(await screenFaults(page)).toEqual([]);
  await inDiary.getByRole('link', { name: /^Change: Rui Castellan/ }).click();
  await page.getByRole('link', { name: `Move the visit of ${showDay(saturday)}` }).click();
  await page.getByLabel('Day').fill(today);
  await page.getByLabel('Time').fill('');
  await page.getByRole('button', { name: 'Move it' }).click();
  const sure = page.getByLabel('Book it all the same');
  const moved = page.getByRole('rowheader', { name: showDay(today) });
  await expect(moved.or(sure)).toBeVisible();
  if (await sure.isVisible()) {
    await sure.check();
    await page.getByRole('button', { name: 'Move it' }).click();
  }
  await expect(moved).toBeVisible();
  await page.goto(own);
  await expect(page.getByText(/The next visit is booked for|Visit booked/).first()).toBeVisible();
  await page.goto(`${own}/bookings`);
  const form = page.getByRole('form', { name: /^What became of/ }).first();
  await page.getByText('Missed or cancelled').first().click();
  await form.getByLabel('What became of it').selectOption('missed');
  await form.getByRole('textbox', { name: 'Why' }).fill('bus did not come');
  await form.getByRole('button', { name: 'Note it' }).click();
  await expect(page.getByRole('cell', { name: 'missed', exact: true })).toBeVisible();
  await page.getByText(/^Every state/).click();
  await expect(page.getByText(/missed \(bus did not come\)/)).toBeVisible();
  expect(await screenFaults(page)).toEqual([]);
  await page.goto('/?q=Rui&kind=call');
  await expect(page.locator('tr[data-line]').filter({ hasText: 'Call about a missed visit' })).toHaveCount(1);
});

test('a form that is sent again because its answer was lost is taken as kept, once', async ({ page }) => {
  const own = await open(page, 'Tess Ibarra');
  await page.goto(`${own}/work`);
  const states = page.locator('.history-table').getByRole('row');
  const before = await states.count();
  await page.getByLabel('Stage', { exact: true }).fill('III');
  await page.getByLabel('Why it is changed').fill('asked again');
  const sent = page.waitForRequest((request) => request.method() === 'POST');
  await page.getByRole('button', { name: 'Save' }).click();
  const first = await sent;
  await expect(page).toHaveURL(own);
  const again = await page.request.fetch(first.url(), {
    method: 'POST',
    headers: await first.allHeaders(),
    data: first.postDataBuffer() ?? Buffer.alloc(0),
    maxRedirects: 0,
  });
  expect(again.headers()['x-action-redirect']).toContain(own);
  await page.goto(`${own}/work`);
  await expect(states).toHaveCount(before + 1);
});
