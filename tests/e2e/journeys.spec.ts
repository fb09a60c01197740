import { expect, type Page, test } from '@playwright/test';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import { cell, finish, newSheet, typeDown } from './on-the-sheet';

const today = new Intl.DateTimeFormat('en-CA', { timeZone: 'Europe/London' }).format(new Date()) as CalendarDay;

async function beginPhase(page: Page, own: string, kind: string, day: CalendarDay): Promise<void> {
  await page.goto(`${own}/course`);
  const form = page.getByRole('form', { name: 'Begin a phase' });
  await form.getByLabel('Phase', { exact: true }).selectOption({ label: kind });
  await form.getByLabel('Begins on').fill(day);
  await form.getByRole('button', { name: 'Begin the phase' }).click();
  await expect(page.getByRole('rowheader', { name: new RegExp(`${kind}, now$`) })).toBeVisible();
}

test('referral to first garment: referred, booked, measured and so kept, ordered, delivered, fitted', async ({ page }) => {
  test.setTimeout(240_000);
  const own = await newSheet(page, 'HL-REFER');
  await page.goto(`${own}/work`);
  await page.getByLabel('Referred on').fill(addDays(today, -10));
  await page.getByLabel('Referral ends on').fill(addDays(today, 200));
  await page.getByLabel('Prescriber', { exact: true }).fill('Dr. Pell');
  await page.getByLabel('Name, called first').fill('Cato Lind');
  await page.getByLabel('Phone of contact 1').fill('555-0133');
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText('Call Cato Lind, 555-0133')).toBeVisible();

  await page.goto(`${own}/bookings`);
  await page.getByLabel('Day').fill(today);
  await page.getByLabel('What for').fill('measure');
  await page.getByRole('button', { name: 'Book it' }).click();
  const [row, sure] = [page.getByRole('cell', { name: 'booked', exact: true }), page.getByLabel('Book it all the same')];
  await expect(row.or(sure)).toBeVisible();
  if (await sure.isVisible()) {
    await sure.check();
    await page.getByRole('button', { name: 'Book it' }).click();
  }
  await expect(row).toBeVisible();

  await page.goto(`${own}/visits/new`);
  await cell(page, 'Left', '1½').click();
  await typeDown(page, ['24', '23', '22', '21', '20', '19', '18', '17']);
  await finish(page);
  await page.goto(`${own}/bookings`);
  await expect(page.getByRole('cell', { name: 'kept', exact: true })).toBeVisible();

  await beginPhase(page, own, 'garments', today);
  await page.goto(`${own}/orders/new`);
  await page.getByLabel('Garment', { exact: true }).selectOption({ label: 'leg sleeve without foot' });
  await page.getByLabel('Reduction, %').fill('15');
  await page.getByLabel('Pieces', { exact: true }).fill('1');
  await page.getByLabel('Covers from').fill('3 in');
  await page.getByLabel('Covers to').fill('9 in');
  await page.getByLabel('Expected life, days').fill('180');
  await page.getByLabel('Making and delivery, days').fill('14');
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await expect(page.getByRole('heading', { name: /^Order 1:/ })).toBeVisible();
  for (const box of await page.getByPlaceholder('why it may leave all the same').all()) await box.fill('asked on paper today, none holds');
  await page.getByLabel(/It goes out unchecked/).check();
  await page.getByRole('button', { name: 'Freeze the figures and mark as sent' }).click();
  await expect(page.getByText(/^Sent .*Figures frozen as sent\.$/)).toBeVisible();
  await page.getByRole('button', { name: /came$/ }).first().click();
  await page.getByRole('link', { name: /^piece 1, delivered/ }).click();
  await expect(page.getByRole('form', { name: 'First fit' })).toBeVisible();
  for (const zone of await page.locator('select[name^="zone/"]').all()) await zone.selectOption('good');
  await page.getByLabel('What follows').selectOption('keep');
  await page.getByLabel('Hours a day in the end').fill('12');
  await page.getByLabel('Why they were not asked').fill('asked on paper today, none holds');
  await page.getByRole('button', { name: 'Record the first fit' }).click();
  await expect(page.getByRole('heading', { name: 'First fit' })).toHaveCount(0);
  await page.goto(own);
  await expect(page.getByRole('region', { name: 'Pieces' })).toContainText('checked');
});

test('reduction to rebound: how much of what was lost is back stands first, and going back to reduction is begun from the prompt', async ({
  page,
}) => {
  await page.goto('/patients?q=Grete');
  await page.getByRole('link', { name: 'Grete Holloway' }).click();
  await expect(page.getByText(/Consider reducing the left arm again/).first()).toBeVisible();
  const own = new URL(page.url()).pathname;
  await beginPhase(page, own, 'reduction', today);
  await page.goto(own);
  await expect(page.getByText(/Consider reducing the left arm again/)).toHaveCount(0);
  await expect(page.getByText(/Reduction since /).first()).toBeVisible();
});
