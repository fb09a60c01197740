import { expect, type Page, test } from '@playwright/test';
import { addDays, type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { screenFaults } from './screen-faults';

const today = new Intl.DateTimeFormat('en-CA', { timeZone: 'Europe/London' }).format(new Date()) as CalendarDay;

async function open(page: Page, name: string): Promise<string> {
  await page.goto(`/patients?q=${encodeURIComponent(name)}`);
  await page.getByRole('link', { name, exact: true }).click();
  await expect(page.getByRole('heading', { level: 1, name })).toBeVisible();
  return new URL(page.url()).pathname;
}

test('what is looked at: a scar twice, within error; a mark on the outline, gone; a kind of the clinic’s own; each corrected or taken back with both states', async ({
  page,
}) => {
  test.setTimeout(180_000);
  await page.goto('/clinic/looked');
  await page.getByLabel('Name, 1').fill('Grip');
  await page.getByLabel('Unit, 1').fill('kg');
  await page.getByLabel('From, 1').fill('90');
  await page.getByLabel('To, 1').fill('0');
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText('Not above 90.')).toBeVisible();
  await page.getByLabel('From, 1').fill('0');
  await page.getByLabel('To, 1').fill('90');
  expect(await screenFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByRole('group', { name: 'Grip' })).toBeVisible();

  const own = await open(page, 'Lia Fontane');
  await page.getByRole('link', { name: 'Wear, skin, scar, motion' }).click();
  const look = async (kind: string, day: string, fill: (form: ReturnType<Page['getByRole']>) => Promise<void>) => {
    const form = page.getByRole('form', { name: kind });
    // A section that was saved from stays open.
    if (!(await form.isVisible())) await page.getByText(kind, { exact: true }).last().click();
    await form.getByLabel('Day').fill(day);
    await fill(form);
    await form.getByRole('button', { name: /^Save/ }).click();
  };
  await look('Scar', addDays(today, -30), async (form) => {
    await form.getByLabel('Redness, of 10').fill('11');
    await form.getByLabel('Side').selectOption('left');
  });
  await expect(page.getByText('From 0 to 10 of 10.')).toBeVisible();
  await page.getByLabel('Redness, of 10').fill('6');
  await page.getByRole('button', { name: 'Save scar' }).click();
  await expect(page.getByRole('cell', { name: 'left, Redness 6' })).toBeVisible();
  await look('Scar', today, async (form) => {
    await form.getByLabel('Redness, of 10').fill('5');
    await form.getByLabel('Side').selectOption('left');
  });
  await expect(page.getByText(/down by 1 of 10, within error/)).toBeVisible();
  await look('Marks on the skin', today, async (form) => {
    await form.getByLabel('Limb').selectOption('left leg');
    await form.getByLabel('How far up, %').fill('25');
    await form.getByLabel('What').selectOption('red');
  });
  await expect(page.getByRole('img', { name: 'left leg, one mark still there' })).toBeVisible();
  await look('Grip', today, async (form) => {
    await form.getByLabel('Grip, kg').fill('31');
  });
  await expect(page.getByRole('img', { name: /^Grip: one figure/ })).toBeVisible();
  expect(await screenFaults(page)).toEqual([]);
  await page.goto(own);
  const panel = page.getByRole('region', { name: 'Looked at' });
  await expect(panel).toContainText('One mark on the skin is still there.');
  await expect(panel).toContainText('within error');

  await page.goto(`${own}/looked`);
  await page.getByLabel(`End Marks on the skin of ${showDay(today)}`).click();
  const end = page.getByRole('form', { name: `Gone: Marks on the skin of ${showDay(today)}` });
  await end.getByLabel('Gone on').fill(addDays(today, -1));
  await end.getByRole('button', { name: 'It is gone' }).click();
  await expect(page.getByText(`and seen on ${showDay(today)}, after that day.`)).toBeVisible();
  await end.getByLabel('Gone on').fill(today);
  await end.getByRole('button', { name: 'It is gone' }).click();
  await expect(page.getByRole('cell', { name: /red, left leg, 25.% of the way up; gone/ })).toBeVisible();
  await page.getByLabel(`Correct Scar of ${showDay(today)}`).click();
  await page.getByLabel('Redness, of 10').fill('4');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await expect(page.getByText('Say in a few words why it is changed.')).toBeVisible();
  await page.getByLabel('Why it is changed').fill('misread');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await expect(page.getByRole('cell', { name: 'left, Redness 4' })).toBeVisible();
  await page.getByText(/^Every state/).click();
  await expect(page.getByText(/left, Redness 4.of 10 \(misread\)/)).toBeVisible();
  await expect(page.getByText(/left, Redness 5.of 10$/)).toBeVisible();
});

test('the result of a visit says what was looked at that day and leads to the rest, with the day of the visit in the box', async ({
  page,
}) => {
  const own = await open(page, 'Rui Castellan');
  await page.locator(`a[href^="${own}/visits/"]:not([href$="/new"])`).locator('visible=true').last().click();
  await expect(page.getByText('nothing yet on this day.')).toBeVisible();
  await page.getByRole('link', { name: /^Add wear, / }).click();
  await page.waitForURL(/\/looked\?day=/);
  const day = new URL(page.url()).searchParams.get('day') ?? '';
  await page.getByText('Itch', { exact: true }).last().click();
  const form = page.getByRole('form', { name: 'Itch' });
  await expect(form.getByLabel('Day')).toHaveValue(day);
  expect(day < today).toBe(true);
});
