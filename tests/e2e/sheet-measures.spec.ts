import { expect, type Page, test } from '@playwright/test';
import { cell, finish, newSheet, ready, saved, typeDown } from './on-the-sheet';
import { rulesBroken } from './screen-faults';

const section = (page: Page) => page.getByRole('region', { name: 'Hand, foot, trunk, head' });
const box = (page: Page, name: string) => page.getByRole('textbox', { name: `${name}, inches`, exact: true });

/** Takes up a part; its first box then has the focus. */
async function takeUp(page: Page, part: string): Promise<void> {
  const fold = section(page).getByRole('button', { name: 'Hand, foot, trunk, head' });
  if ((await fold.getAttribute('aria-expanded')) === 'false') await fold.click();
  await section(page).getByRole('button', { name: part, exact: true }).click();
}

test('named measures are folded away until taken up, take the digits and one key each, are asked about, kept, saved and corrected', async ({
  page,
}) => {
  test.setTimeout(120_000);
  const address = await newSheet(page, 'NM-1');
  await expect(section(page).getByRole('textbox')).toHaveCount(0);
  await expect(section(page).getByRole('button', { name: 'Left hand' })).toBeHidden();
  await takeUp(page, 'Left hand');
  await expect(box(page, 'Left hand girth')).toBeFocused();
  await expect(section(page).locator('[id$="-says"]:not(.visually-hidden)')).toHaveCount(1);
  await page.evaluate(() => {
    (window as unknown as { keys: number }).keys = 0;
    document.addEventListener('keydown', () => ((window as unknown as { keys: number }).keys += 1), true);
  });
  const figures = ['7.4', '9.6', '3.1', '7.1'];
  await typeDown(page, figures);
  expect(await page.evaluate(() => (window as unknown as { keys: number }).keys)).toBe(figures.join('').length + figures.length);
  await expect(section(page)).toContainText('4 measured');
  await box(page, 'Left hand girth').fill('17.4');
  await page.keyboard.press('Enter');
  const question = section(page).getByRole('region', { name: /^Left hand girth: 17⅜/ });
  await expect(question).toBeVisible();
  await page.keyboard.press('k');
  await expect(question).toBeHidden();
  await expect(section(page)).toContainText('kept by');
  await box(page, 'Left hand girth').fill('7.4');
  await page.keyboard.press('Enter');
  await expect(section(page)).not.toContainText('kept by');
  await saved(page);
  await page.reload();
  await ready(page);
  await expect(box(page, 'Left hand girth')).toHaveValue('7.4');
  expect(await rulesBroken(page)).toEqual([]);
  await cell(page, 'Left', '1½').fill('8 1/8');
  if (process.env.E2E_PICTURES) await page.screenshot({ path: `${process.env.E2E_PICTURES}/sheet.png`, fullPage: true });
  await finish(page);
  if (process.env.E2E_PICTURES) await page.screenshot({ path: `${process.env.E2E_PICTURES}/result.png`, fullPage: true });
  const result = page.getByRole('region', { name: 'Hand, foot, trunk, head' });
  await expect(result.getByRole('row', { name: /^Left hand girth 7[^ ]*\sin · 18\.8\scm This is the first visit/ })).toBeVisible();
  expect(await rulesBroken(page)).toEqual([]);

  await page.getByRole('link', { name: 'Correct a figure' }).click();
  await ready(page);
  await expect(box(page, 'Left hand girth')).toHaveValue('7.4');
  await box(page, 'Left hand girth').fill('7.6');
  await page.getByRole('button', { name: 'See what changes' }).click();
  const head = page.getByRole('heading', { name: 'What this correction changes' });
  const note = page.getByText('again to leave it so.');
  await expect(head.or(note).first()).toBeVisible();
  if (await note.isVisible()) await page.getByRole('button', { name: 'See what changes' }).click();
  await expect(page.getByRole('row', { name: /^Left hand girth 7\.4 7\.6/ })).toBeVisible();
  await page.getByLabel('Why it is corrected').fill('read off the wrong edge');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await expect(result.getByRole('row', { name: /^Left hand girth 7⅝/ })).toBeVisible();
  await page.goto(address);
  await expect(
    page.getByRole('region', { name: 'Hand, foot, trunk, head' }).getByRole('row', { name: /^Left hand girth 7⅝/ }),
  ).toBeVisible();
  await page.goto(`${address}/visits/new`);
  await ready(page);
  await expect(box(page, 'Left hand girth')).toHaveValue('');
  await box(page, 'Left hand girth').fill('7.75');
  await page.keyboard.press('Enter');
  await expect(section(page)).toContainText(/7⅝, \+⅛/);
});

test('tights are one order over both legs and the measures: what is missing needs a reason, everything is frozen and printed', async ({
  page,
}) => {
  test.setTimeout(120_000);
  const address = await newSheet(page, 'NM-2');
  await cell(page, 'Left', '1½').fill('8 1/8');
  await cell(page, 'Left', '3').fill('8 1/2');
  await takeUp(page, 'Left foot');
  await box(page, 'Left foot length').fill('9.5');
  await box(page, 'Left ball girth').fill('9');
  await box(page, 'Left heel–ankle girth').fill('12.25');
  await takeUp(page, 'Left hand');
  await box(page, 'Left hand girth').fill('7.4');
  await page.keyboard.press('Enter');
  await saved(page);
  await finish(page);
  await page.goto(`${address}/orders/new`);
  await page.getByLabel('Garment', { exact: true }).selectOption({ label: 'waist-high, both legs' });
  await expect(page.getByText(/^Not measured on .*: ladder of the right leg; waist girth, halfway; /)).toBeVisible();
  for (const [name, value] of [
    ['Reduction, %', '15'],
    ['Covers to', '3'],
    ['Covers from', '1 1/2'],
    ['Expected life, days', '180'],
    ['Making and delivery, days', '14'],
  ] as const)
    await page.getByLabel(name).fill(value);
  await page.getByRole('button', { name: 'Keep as proposed' }).click();
  await expect(page.getByRole('heading', { name: 'Order 1: waist-high, both legs' })).toBeVisible();
  await expect(page.getByText('both legs', { exact: true }).first()).toBeVisible();
  await expect(page.getByRole('row', { name: /^Left ball girth 9 in 22\.9 cm/ })).toBeVisible();
  await expect(page.locator('[data-order-measures]')).not.toContainText('hand girth');
  const missing = page.getByText(/has no ladder of the right leg; no waist girth, halfway; .*no right foot length/);
  await expect(missing).toBeVisible();
  await page.getByRole('checkbox', { name: /It goes out unchecked/ }).check();
  const send = page.getByRole('button', { name: 'Freeze the figures and mark as sent' });
  await send.click();
  await expect(page.getByText('Answer in a few words, or go back and mend it.').first()).toBeVisible();
  for (const one of await page.locator('input[name^="answer"]').all()) await one.fill('the maker has them from last year');
  await send.click();
  await expect(page.getByText(/Figures frozen as sent\.$/)).toBeVisible();
  await expect(page.getByRole('row', { name: /^Left foot length 9\.5 in/ })).toBeVisible();
  const without = page.getByRole('region', { name: 'Not taken: sent without these' });
  for (const one of ['Ladder of the right leg', 'Waist girth, halfway', 'Hip girth', 'Crotch length', 'Right foot length'])
    await expect(without.getByRole('listitem').filter({ hasText: one })).toHaveCount(1);
  await expect(without).toContainText(/Why it leaves without: “the maker has them from last year” \(R\. Adeyemi, /);
  expect(await rulesBroken(page)).toEqual([]);
  if (process.env.E2E_PICTURES) await page.pdf({ path: `${process.env.E2E_PICTURES}/order-set.pdf`, format: 'A4' });
});

test('named measures are pasted, taken back, measured twice and read back; those of another part are asked about', async ({ page }) => {
  test.setTimeout(120_000);
  await newSheet(page, 'NM-3');
  await takeUp(page, 'Left hand');
  await expect(box(page, 'Left hand girth')).toBeFocused();
  const paste = (text: string) =>
    box(page, 'Left hand girth').evaluate((element, words) => {
      const data = new DataTransfer();
      data.setData('text', words);
      element.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
    }, text);
  await paste('hand girth\t7.4\nball girth\t9');
  const panel = page.getByRole('region', { name: 'Paste named measures' });
  await expect(panel.getByText('Line 2 is of the left foot, and the left hand is being measured.').first()).toBeVisible();
  expect(await rulesBroken(page)).toEqual([]);
  await expect(panel.getByRole('button', { name: /Put them on the sheet/ })).toHaveAttribute('aria-disabled', 'true');
  await panel.getByRole('checkbox').check();
  await panel.getByRole('button', { name: /Put them on the sheet/ }).click();
  await expect(panel).toHaveCount(0);
  await expect(box(page, 'Left ball girth')).toHaveValue('9');
  await page.getByRole('button', { name: 'Undo: paste two named measures' }).click();
  await expect(box(page, 'Left hand girth')).toHaveValue('');
  await page.getByRole('button', { name: 'Redo: paste two named measures' }).click();
  await expect(box(page, 'Left hand girth')).toHaveValue('7.4');
  await page.getByRole('button', { name: 'Measure again' }).click();
  await page.getByRole('textbox', { name: 'Left hand girth, inches, measured again' }).fill('7.5');
  expect(await rulesBroken(page)).toEqual([]);
  await box(page, 'Left hand girth').press('b');
  await expect(page.getByRole('region', { name: 'Read back' })).toContainText('Left hand girth');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('region', { name: 'Read back' })).toContainText('Left ball girth');
  await page.keyboard.press('Escape');
  await cell(page, 'Left', '1½').fill('8 1/8');
  await saved(page);
  await finish(page);
  await expect(page.getByRole('row', { name: /^left hand girth 7\.4\sin 7\.5\sin/ })).toBeVisible();
});
