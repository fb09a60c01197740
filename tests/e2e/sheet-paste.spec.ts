import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { cell, finish, newSheet, saved, typeDown } from './on-the-sheet';

const paste = (page: Page) => page.getByRole('textbox', { name: /Copy one or two columns/ });
const land = (page: Page) => page.getByRole('button', { name: 'Put them on the sheet' });

test('a bad cell stops a whole paste and is named; mended, the column lands, and Undo takes it back', async ({ page }) => {
  await newSheet(page, 'PA-bad');
  await page.getByRole('button', { name: 'Paste a column' }).click();
  await paste(page).fill('8 1/8\n8 3/8\n3O.5\n9 5/8');
  await expect(page.getByText('Line 3, right: “3O.5”: a letter O. Type a nought. Nothing was pasted.')).toBeVisible();
  await expect(land(page)).toHaveAttribute('aria-disabled', 'true');
  await land(page).click({ force: true });
  await expect(cell(page, 'Right', '1½')).toHaveValue('');
  await paste(page).fill('8 1/8\n8 3/8\n8 7/8\n9 5/8');
  await expect(page.getByRole('row', { name: /^3 right 8 3\/8 8⅜\sin/ })).toBeVisible();
  await land(page).click();
  await expect(cell(page, 'Right', '6')).toHaveValue('9 5/8');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(cell(page, 'Right', '6')).toHaveValue('');
});

test('two columns with places, quoted and with decimal commas, are mapped by their places', async ({ page }) => {
  await newSheet(page, 'PA-two');
  await page.getByRole('button', { name: 'Change' }).click();
  await page.getByLabel('Unit of the tape').selectOption('cm');
  await page.getByRole('button', { name: 'Done' }).click();
  await cell(page, 'Right', '4.0', 'leg', 'centimetres').focus();
  await page.getByRole('button', { name: 'Paste a column' }).click();
  await paste(page).fill('place;girth\n8;"21,5"\n4;"20,1"\n12;22,9');
  await expect(page.getByRole('combobox', { name: 'place', exact: true })).toHaveValue('place');
  await land(page).click();
  await expect(cell(page, 'Right', '4.0', 'leg', 'centimetres')).toHaveValue('20,1');
  await expect(cell(page, 'Right', '8.0', 'leg', 'centimetres')).toHaveValue('21,5');
  await expect(cell(page, 'Right', '12.0', 'leg', 'centimetres')).toHaveValue('22,9');
});

test('two columns without places are right and left; more lines than rungs are refused', async ({ page }) => {
  await newSheet(page, 'PA-sides');
  await cell(page, 'Right', '1½').focus();
  await page.evaluate(() => {
    const box = document.activeElement as HTMLInputElement;
    const data = new DataTransfer();
    data.setData('text', '8 1/8\t8\n8 3/8\t8 1/4\n8 7/8\t8 3/4');
    box.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
  });
  await expect(
    page.getByText('Six figures can be read. They go to the right leg, from 1½ to 4½ in, and the left leg, from 1½ to 4½ in.'),
  ).toBeVisible();
  await land(page).click();
  await expect(cell(page, 'Left', '4½')).toHaveValue('8 3/4');
  await page.getByRole('button', { name: 'Paste a column' }).click();
  await paste(page).fill(Array.from({ length: 20 }, () => '9').join('\n'));
  await expect(page.getByText(/20 lines for 7 rungs\./)).toBeVisible();
});

test('a paste over figures says which ones it replaces, goes where the caret was, and Undo brings them back', async ({ page }) => {
  await newSheet(page, 'PA-over');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8', '8 7/8']);
  const pasteInto = (text: string) =>
    page.evaluate((pasted) => {
      const data = new DataTransfer();
      data.setData('text', pasted);
      document.activeElement?.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
    }, text);
  await cell(page, 'Right', '3').focus();
  await pasteInto('9\n9 1/8\n9 1/4');
  await expect(page.getByText('They go to the right leg, from 3 to 6 in. What stands there now is replaced: 8 3/8, 8 7/8.')).toBeVisible();
  await expect(page.getByRole('row', { name: /^3 right 9 9\sin .* 8 3\/8, is replaced$/ })).toBeVisible();
  await page.getByRole('button', { name: 'Put them on the sheet, replacing 2' }).click();
  await expect(cell(page, 'Right', '6')).toHaveValue('9 1/4');
  await page.getByRole('button', { name: 'Undo: paste three figures' }).click();
  await expect(cell(page, 'Right', '3')).toHaveValue('8 3/8');
  await expect(cell(page, 'Right', '6')).toHaveValue('');
  await page.getByRole('button', { name: 'Measure again' }).click();
  await page.getByRole('textbox', { name: 'Right leg, girth at 1½ inches, measured again' }).focus();
  await pasteInto('8\n8 1/4');
  await expect(page.getByRole('combobox', { name: 'Into' })).toHaveValue('again');
  await expect(page.getByText('from 1½ to 3 in, as measured again.')).toBeVisible();
  await land(page).click();
  await expect(page.getByRole('textbox', { name: 'Right leg, girth at 3 inches, measured again' })).toHaveValue('8 1/4');
  await expect(cell(page, 'Right', '3').first()).toHaveValue('8 3/8');
});

test('a second measuring stands beside the first with its difference, and one beyond tape error is asked about', async ({ page }) => {
  await newSheet(page, 'PA-again');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8', '8 7/8']);
  await page.getByRole('button', { name: 'Measure again' }).click();
  await page.getByRole('textbox', { name: 'Right leg, girth at 1½ inches, measured again' }).focus();
  await typeDown(page, ['8 1/4', '9']);
  await expect(page.getByRole('row', { name: /^1½/ })).toContainText(/again 8¼ \+⅛/);
  await expect(page.getByRole('row', { name: /^3 8/ })).toContainText('more than tape error');
  await expect(page.getByRole('region', { name: /3\sin: 8⅜ or 9\?/ })).toBeVisible();
  await page.keyboard.press('k');
  await saved(page);
  await finish(page);
});

test('reading back shows each figure large, one key at a time', async ({ page }) => {
  await newSheet(page, 'PA-back');
  await cell(page, 'Right', '1½').focus();
  await typeDown(page, ['8 1/8', '8 3/8']);
  await page.keyboard.press('b');
  await expect(page.getByRole('region', { name: 'Read back' }).locator('[aria-live]')).toHaveText('8⅛ in');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('region', { name: 'Read back' }).locator('[aria-live]')).toHaveText('8⅜ in');
  await page.keyboard.press('Escape');
  await expect(page.getByRole('region', { name: 'Read back' }).locator('[aria-live]')).toHaveCount(0);
});

/** Levels of female1's legs in the Yeadon sample, cm from the hip joint centre, and girths, cm. */
function yeadonLegs() {
  const file = path.resolve(import.meta.dirname, '../reference/body/yeadon_sample_ladders.csv');
  const rows = readFileSync(file, 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','));
  const of = (side: string) =>
    rows
      .filter((row) => row[0] === 'female1' && row[1] === 'leg' && row[2] === side)
      .map((row) => ({ down: Number(row[4]), girth: Number(row[5]) }));
  return { Right: of('R'), Left: of('L') } as const;
}

/** Frustum sum Σ h (a² + ab + b²) / 12π in millilitres, worked out here from centimetres. */
function frusta(levels: readonly { place: number; girth: number }[]): number {
  return levels.slice(1).reduce((sum, upper, index) => {
    const lower = levels[index] ?? upper;
    return sum + (Math.abs(upper.place - lower.place) * (lower.girth ** 2 + lower.girth * upper.girth + upper.girth ** 2)) / (12 * Math.PI);
  }, 0);
}

/** `23 3/8`: to the nearest eighth of an inch, as a tape in inches is read. */
function eighths(cm: number): { text: string; cm: number } {
  const steps = Math.round((cm / 2.54) * 8);
  const [whole, part] = [Math.floor(steps / 8), steps % 8];
  return { text: part === 0 ? String(whole) : `${whole === 0 ? '' : `${whole} `}${part}/8`, cm: (steps / 8) * 2.54 };
}

for (const unit of ['cm', 'in'] as const) {
  for (const direction of ['up', 'down'] as const) {
    test(`both legs of a real person typed in ${unit}, ${direction === 'up' ? 'bottom-up' : 'top-down'}, give the volume worked out by hand`, async ({
      page,
    }) => {
      test.setTimeout(60_000);
      await newSheet(page, `YE-${unit}-${direction}`);
      await page.getByRole('button', { name: 'Change' }).click();
      await page.getByLabel('Unit of the tape').selectOption(unit);
      await page.getByLabel('Interval, ').fill('');
      await page.getByRole('combobox', { name: 'Zero', exact: true }).selectOption('other');
      await page.getByLabel('Zero, in words').fill(direction === 'up' ? 'ankle joint centre' : 'hip joint centre');
      await page.getByLabel('Direction').selectOption(direction);
      await page.getByRole('button', { name: 'Done' }).click();
      const volumes: Record<string, number> = {};
      for (const side of ['Right', 'Left'] as const) {
        const levels = yeadonLegs()[side];
        const far = Math.max(...levels.map((level) => level.down));
        const typed = levels.map(({ down, girth }) => {
          const place = Math.round((direction === 'up' ? far - down : down) * 100) / 100;
          const spell = (cm: number) => (unit === 'in' ? eighths(cm) : { text: String(cm), cm });
          return { place: spell(place), girth: spell(girth) };
        });
        for (const { place, girth } of typed) {
          await page.getByLabel(/^A place off the grid/).fill(place.text);
          await page.getByRole('button', { name: 'Add place' }).click();
          const box = page.locator(`input:focus`);
          await expect(box).toHaveAccessibleName(/girth at/);
          await cell(
            page,
            side,
            ((await box.getAttribute('aria-label')) ?? '').replace(/^.*girth at (\S+) .*$/, '$1'),
            'leg',
            unit === 'in' ? 'inches' : 'centimetres',
          ).fill(girth.text);
        }
        const rungs = typed.map(({ place, girth }) => ({ place: place.cm, girth: girth.cm })).sort((one, other) => one.place - other.place);
        volumes[side] = frusta(rungs);
      }
      await saved(page);
      await finish(page);
      for (const side of ['right', 'left'] as const) {
        const shown = Number(await page.locator(`section[data-side="${side}"] [data-volume]`).getAttribute('data-volume'));
        const byHand = volumes[side === 'right' ? 'Right' : 'Left'] ?? 0;
        expect(Math.abs(shown - byHand)).toBeLessThanOrEqual(0.051);
        const exact = frusta(yeadonLegs()[side === 'right' ? 'Right' : 'Left'].map(({ down, girth }) => ({ place: down, girth })));
        expect(Math.abs(shown / exact - 1)).toBeLessThan(0.01);
        console.log(
          `${unit} ${direction} ${side}: shown ${shown} ml, by hand ${byHand.toFixed(2)} ml, from the untouched centimetres ${exact.toFixed(2)} ml`,
        );
      }
    });
  }
}
