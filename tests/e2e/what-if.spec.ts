import { expect, type Page, test } from '@playwright/test';
import { rulesBroken } from './screen-faults';

/** Opens the page of the first piece of a story's patient that is in use. */
async function openPiece(page: Page, name: string): Promise<void> {
  await page.goto(`/patients?q=${encodeURIComponent(name)}`);
  await page.getByRole('link', { name }).first().click();
  await page
    .getByRole('region', { name: 'Pieces' })
    .getByRole('row', { name: /in rotation|wear-in/ })
    .first()
    .getByRole('link', { name: /^Piece / })
    .click();
  await expect(page.getByRole('heading', { name: 'On record' })).toBeVisible();
}

test('what if shows four ways side by side, and the slider answers to the keyboard and keeps its focus', async ({ page }) => {
  await openPiece(page, 'Lia Fontane');
  await page.getByRole('link', { name: 'What if' }).click();
  await expect(page.getByRole('heading', { name: 'Four ways' })).toBeVisible();
  const ways = page.getByRole('region', { name: 'Four ways' });
  for (const way of ['Order now', 'Let out now', 'Order at the next visit', 'Wait for the visit after it'])
    await expect(ways.getByRole('rowheader', { name: new RegExp(`^${way}`) }).first()).toBeVisible();
  const chart = page.getByRole('region', { name: 'Chance of no working piece, by week' });
  await expect(chart.getByRole('img')).toHaveAttribute('aria-label', /Order now: at most/);
  await expect(chart.getByRole('row')).not.toHaveCount(1);
  const slider = page.getByRole('slider', { name: /Making and delivery take/ });
  const before = Number(await slider.inputValue());
  await slider.focus();
  for (let step = 0; step < 5; step++) await page.keyboard.press('ArrowRight');
  await expect(page).toHaveURL(new RegExp(`making=${before + 5}`));
  await expect(ways.getByText(`Making ${before + 5} days`)).toBeVisible();
  await expect(slider).toBeFocused();
  expect(await rulesBroken(page)).toEqual([]);
});

test('a figure in the address that cannot be tried is refused beside its box', async ({ page }) => {
  await openPiece(page, 'Lia Fontane');
  const piece = new URL(page.url()).pathname;
  await page.goto(`${piece}/what-if?making=900&price=cheap`);
  await expect(page.getByText('Whole figures from 1 to 60.')).toBeVisible();
  await expect(page.getByText('Type a price such as 120 or 120.50.')).toBeVisible();
});

test('the plan of a patient is an ordered list with each reason folded and its own answers', async ({ page }) => {
  await page.goto('/patients?q=Bram');
  await page.getByRole('link', { name: 'Bram Oster' }).click();
  const next = page.getByRole('region', { name: 'Next' });
  const steps = next.locator('ol > li');
  await expect(steps.first().getByRole('heading')).toBeVisible();
  const count = await steps.count();
  expect(count).toBeGreaterThan(0);
  await expect(next.locator('[data-prompt-answers]')).toHaveCount(count);
  expect(await rulesBroken(page)).toEqual([]);
});

test('a piece page holds how it sits as cut and as worn, its dates and its fit by visit; the list finds it by name', async ({ page }) => {
  await openPiece(page, 'Rui Castellan');
  const sits = page.getByRole('region', { name: /^Piece \d on the (left|right) leg$/ });
  await expect(sits.getByText(/^As cut up to/)).toBeVisible();
  await expect(sits.getByText(/As worn up to about/)).toBeVisible();
  await expect(sits.getByText(/published for/)).toBeVisible();
  await expect(page.getByRole('heading', { name: /^Fit by visit/ })).toBeVisible();
  expect(await rulesBroken(page)).toEqual([]);
  await page.goto('/pieces');
  await page.getByLabel('Name or reference').fill('castellan');
  await page.getByRole('button', { name: 'Find' }).click();
  await expect(page.getByRole('row', { name: /Rui Castellan/ }).first()).toBeVisible();
  await expect(page.getByRole('row', { name: /Bram Oster/ }).filter({ hasText: 'piece' })).toHaveCount(0);
  expect(await rulesBroken(page)).toEqual([]);
  await page.goto('/pieces?q=nobody-of-this-name');
  await expect(page.getByText('No piece is found so.')).toBeVisible();
});
