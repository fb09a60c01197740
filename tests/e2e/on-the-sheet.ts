import { expect, type Locator, type Page, test } from '@playwright/test';
import { PASSWORD } from './people';

/** Adds a patient by the form, of another reference when the test is tried again, and opens the sheet of a first visit; answers the patient's address. */
export async function newSheet(page: Page, reference: string, limb: 'leg' | 'arm' = 'leg'): Promise<string> {
  await page.goto('/patients/new');
  const { retry, repeatEachIndex } = test.info();
  const again = retry + repeatEachIndex > 0 ? `-${repeatEachIndex}-${retry}` : '';
  await page.getByLabel('Reference', { exact: true }).fill(reference + again);
  await page.getByLabel('Name', { exact: true }).fill(`Sheet ${reference}`);
  await page.getByLabel('Date of birth').fill('1988-05-06');
  await page.getByLabel('Diagnosis group').selectOption('lymphoedema');
  await page.getByRole('radio', { name: 'Girls’ and women’s' }).check();
  await page.getByRole('checkbox', { name: `Left ${limb}` }).check();
  await page.getByRole('button', { name: 'Add patient' }).click();
  await expect(page).toHaveURL(/\/patients\/[0-9a-f-]{36}$/);
  const address = new URL(page.url()).pathname;
  await page.goto(`${address}/visits/new`);
  await ready(page);
  return address;
}

/** Waits until the sheet answers to keys, not only stands there. */
export async function ready(page: Page): Promise<void> {
  const table = page.getByRole('table', { name: /Girths of the/ });
  await expect(table).toBeVisible();
  await alive(table);
  await page.waitForLoadState('networkidle');
}

/** Waits until React has taken over what the server wrote: it leaves its own marks on an element it answers for. */
export async function alive(part: Locator): Promise<void> {
  await expect.poll(() => part.first().evaluate((element) => Object.keys(element).some((key) => key.startsWith('__react')))).toBe(true);
}

export type SideWord = 'Left' | 'Right';

/** One cell by its words: `cell(page, 'Right', '1½')`. */
export function cell(page: Page, side: SideWord, place: string, limb = 'leg', unit = 'inches') {
  return page.getByRole('textbox', { name: new RegExp(`^${side} ${limb}, girth at ${place.replace('.', '\\.')} ${unit}`) });
}

/** Types figures one after another, each with Enter, from where the caret is. */
export async function typeDown(page: Page, figures: readonly string[]): Promise<void> {
  for (const figure of figures) {
    await page.keyboard.type(figure);
    await page.keyboard.press('Enter');
  }
}

/** Waits until the server has everything. */
export async function saved(page: Page): Promise<void> {
  await expect(page.locator('[data-save-state]')).toHaveAttribute('data-save-state', 'saved', { timeout: 15_000 });
  await page.waitForTimeout(1200);
  await expect(page.locator('[data-save-state]')).toHaveAttribute('data-save-state', 'saved', { timeout: 15_000 });
}

/** Presses the finishing button, and once more where the sheet first tells of something left open. */
export async function finish(page: Page): Promise<void> {
  const button = page.getByRole('button', { name: 'Finish visit' });
  await button.click();
  const note = page.getByText('again to leave it so.');
  await Promise.race([
    note.waitFor({ timeout: 4000 }).catch(() => undefined),
    page.waitForURL(/\/visits\/[0-9a-f-]{36}$/).catch(() => undefined),
  ]);
  if (await note.isVisible()) await button.click();
  await expect(page).toHaveURL(/\/visits\/[0-9a-f-]{36}$/, { timeout: 15_000 });
}

/** Signs in on the sign-in page. */
export async function signIn(page: Page, email: string): Promise<void> {
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
}
