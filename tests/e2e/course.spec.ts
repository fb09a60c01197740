import { expect, type Page, test } from '@playwright/test';
import { addDays, type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { screenFaults } from './screen-faults';

const today = new Intl.DateTimeFormat('en-CA', { timeZone: 'Europe/London' }).format(new Date()) as CalendarDay;

async function open(page: Page, name: string): Promise<void> {
  await page.goto(`/patients?q=${encodeURIComponent(name)}`);
  await page.getByRole('link', { name, exact: true }).click();
  await expect(page.getByRole('heading', { level: 1, name })).toBeVisible();
}

/** Fills the form of a phase; boxes by their label. */
async function begin(page: Page, kind: string, boxes: Readonly<Record<string, string>>, press: string): Promise<void> {
  const form = page.getByRole('form', { name: 'Begin a phase' });
  await form.getByLabel('Phase', { exact: true }).selectOption({ label: kind });
  for (const [label, value] of Object.entries(boxes)) {
    const box = form.getByLabel(label, { exact: true });
    if ((await box.evaluate((one) => one.tagName)) === 'SELECT') await box.selectOption({ label: value });
    else await box.fill(value);
  }
  await form.getByRole('button', { name: press }).click();
}

test('a course goes from getting ready to reduction to garments to a death, each said where it is seen, and a mistaken death is taken back', async ({
  page,
}) => {
  test.setTimeout(90_000);
  await open(page, 'Wanda Pryor');
  await expect(page.getByText(/Getting ready since .*; verdicts compare with/)).toBeVisible();
  await expect(page.getByRole('list', { name: 'Phases of the course' })).toContainText('getting ready');
  await page.getByRole('link', { name: 'Course of care' }).click();

  const [began, later] = [addDays(today, -9), addDays(today, -4)];
  await begin(page, 'reduction', { 'Begins on': began, 'Ends on': addDays(began, -1) }, 'Begin the phase');
  await expect(page.getByText(`It ends on ${showDay(addDays(began, -1))}, before it begins on ${showDay(began)}.`)).toBeVisible();
  await expect(page.getByLabel('Begins on')).toHaveValue(began);
  await page.getByLabel('Ends on').fill('');
  await page.getByRole('button', { name: 'Begin the phase' }).click();
  await expect(page.getByRole('rowheader', { name: '2 reduction, now' })).toBeVisible();
  await begin(page, 'garments', { 'Begins on': later, Note: 'two sleeves' }, 'Begin the phase');
  await expect(page.getByRole('rowheader', { name: '3 garments, now' })).toBeVisible();

  await begin(page, 'ended', { 'Ended on': addDays(today, -20), 'How it ended': 'died' }, 'End the course');
  await expect(page.getByText(/The phase getting-ready begins on .*, after this death\./)).toBeVisible();
  await page.getByLabel('Ended on').fill(today);
  await page.getByRole('button', { name: 'End the course' }).click();
  await expect(page.getByRole('rowheader', { name: '4 died, now' })).toBeVisible();
  await page.getByRole('link', { name: 'Back to the patient' }).click();
  await expect(page.getByText(/Died on .*Links, dates, prompts and orders have stopped; the record stays readable\./)).toBeVisible();
  await expect(page.getByText('Nothing is due.')).toBeVisible();
  await expect(page.getByRole('link', { name: 'New visit' })).toHaveCount(0);
  await page.goto('/?q=Wanda');
  await expect(page.locator('tr[data-line]').filter({ hasText: 'Wanda Pryor' })).toHaveCount(0);

  await open(page, 'Wanda Pryor');
  await page.getByRole('link', { name: 'Course of care' }).click();
  await page.getByRole('link', { name: 'Correct phase 4, died' }).click();
  await page.getByLabel('Why it is changed').fill('another person of that name');
  await page.getByRole('button', { name: 'Take this phase back' }).click();
  await expect(page.getByText('This takes a death back.')).toBeVisible();
  await page.getByLabel('Why it is changed').fill('another person of that name');
  await page.getByLabel(/The death was noted by mistake/).check();
  await page.getByRole('button', { name: 'Take this phase back' }).click();
  await expect(page.getByRole('rowheader', { name: '3 garments, now' })).toBeVisible();
  expect(await screenFaults(page)).toEqual([]);
  const history = page.locator('.history-table');
  await expect(history.getByRole('row').nth(1)).toContainText('another person of that name');
  await expect(history.getByRole('row').nth(2)).toContainText('died');
});

test('on hold asks nothing but its day, a reduction that levelled off and a rebound are proposed, and the report names phase and baseline', async ({
  page,
}) => {
  await open(page, 'Hetty Vance');
  await expect(page.getByText(/Nothing is due but to ask again on /)).toBeVisible();
  await open(page, 'Rhoda Amsel');
  await expect(page.getByText(/for its garment: the reduction has levelled off/).first()).toBeVisible();
  await open(page, 'Grete Holloway');
  await expect(page.getByText(/Consider reducing the left arm again/).first()).toBeVisible();
  const report = await page.getByRole('link', { name: 'Progress report' }).getAttribute('href');
  expect(await screenFaults(page)).toEqual([]);
  await page.goto(report ?? '');
  await expect(page.getByRole('heading', { name: 'Course of care' })).toBeVisible();
  await expect(page.getByText(/since the baseline of garments/).first()).toBeVisible();
});

test.describe('without script', () => {
  test.use({ javaScriptEnabled: false });

  test('a course is ended by the plain form, and an ended record offers no new order and no new piece', async ({ page }) => {
    await open(page, 'Hetty Vance');
    await expect(page.getByRole('link', { name: 'New order' })).toBeVisible();
    await page.getByRole('link', { name: 'Course of care' }).click();
    const form = page.getByRole('form', { name: 'Begin a phase' });
    await form.getByLabel('Phase', { exact: true }).selectOption({ label: 'ended' });
    await form.getByLabel('Begins on').fill(today);
    await form.getByLabel('How it ended').selectOption({ label: 'discharged' });
    await form.getByLabel('Note').fill('goes on with the family doctor');
    await form.getByRole('button', { name: 'Begin the phase' }).click();
    await expect(page.getByRole('rowheader', { name: '3 discharged, now' })).toBeVisible();
    await page.getByRole('link', { name: 'Back to the patient' }).click();
    await expect(page.getByRole('link', { name: 'New order' })).toHaveCount(0);
    await expect(page.getByRole('link', { name: 'Add a piece' })).toHaveCount(0);
  });
});
