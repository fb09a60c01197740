import fs from 'node:fs';
import path from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { parse } from 'csv-parse/sync';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { LADDER_COLUMNS } from '@/lib/exchange/ladder-cells';
import { PASSWORD, PEOPLE } from './people';
import { rulesBroken, screenFaults } from './screen-faults';

/** A chart as a clinic has it: days across, both sides below, inches with fractions, Windows line ends. */
const CHART = [
  'place;02/03/2026;;01/06/2026;',
  ';R;L;R;L',
  'ankle;9 1/4;9;9 3/8;9 1/8',
  '4;11;10¾;11 1/2;11',
  '8 calf;13 1/2;13;13 3/4;13 1/8',
  '14 knee;15;14 7/8;15 1/4;15',
  'weight;141;;140 1/2;',
].join('\r\n');

async function upload(page: Page, name: string, content: string | Uint8Array): Promise<void> {
  await page.goto('/clinic/exchange');
  await page.getByLabel('A file').setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(content) });
  await page.getByRole('button', { name: 'Look at the file' }).click();
}

/** So many made-up people with two visits of ten girths each, as a ladders file. */
function largeLadders(people: number): string {
  const lines = Array.from({ length: people }, (_, person) =>
    ['2026-02-02', '2026-06-01'].flatMap((day, visit) =>
      Array.from({ length: 10 }, (_, rung) => {
        const row = { patient: `LARGE-${person}`, born: '1971-04-05', sex: 'F', day, limb: 'leg', side: 'left', affected: 'yes' };
        const girth = (21 + rung * 1.5 + visit * 0.3 + (person % 20) / 10).toFixed(1);
        const cells = { ...row, zero: 'floor', distance: `${12 + 4 * rung}`, girth, unit: 'cm' };
        return LADDER_COLUMNS.map((column) => (cells as Partial<Record<string, string>>)[column] ?? '').join(',');
      }),
    ),
  );
  return [LADDER_COLUMNS.join(','), ...lines.flat()].join('\n');
}

async function bringIn(page: Page, button: string | RegExp): Promise<void> {
  await page.getByRole('button', { name: button }).click();
  await expect(page.getByText('brought in', { exact: true })).toBeVisible();
}

test('a chart from a spreadsheet: what it does not say is asked, it comes in, once more it adds nothing, and all of it is taken back', async ({
  page,
}) => {
  test.setTimeout(60_000);
  await upload(page, 'old chart.csv', CHART);
  await expect(page.getByText('The days can be read in more than one way.')).toBeVisible();
  await expect(page.getByText('Inches or centimetres? The table does not say.')).toBeVisible();
  await expect(page.getByLabel('Girths and distances are in')).toHaveValue('');
  await expect(page.getByRole('button', { name: /Bring in/ })).toHaveCount(0);
  await page.getByLabel('Days are written').selectOption('mdy');
  await page.getByLabel('Girths and distances are in').selectOption('in');
  await page.getByLabel('Limb', { exact: true }).selectOption('leg');
  await page.getByLabel('Distances begin at').selectOption('ankle-crease');
  await page.getByLabel('Reference of the patient').fill('OLD-1');
  await page.getByLabel('Born').fill('1980-05-17');
  await page.getByLabel('Growth table').selectOption('F');
  await page.getByRole('button', { name: 'Read it so' }).click();
  await expect(page.getByText('Inches or centimetres? The table does not say.')).toHaveCount(0);
  await expect(page.getByText('A weight names no unit: kilograms or pounds?')).toBeVisible();
  await expect(page.getByRole('button', { name: /Bring in/ })).toHaveCount(0);
  await page.getByLabel('Weights without a unit').selectOption('lb');
  await page.getByRole('button', { name: 'Read it so' }).click();
  await expect(page.getByText('1 patient, 2 visits, 16 girths.')).toBeVisible();
  expect(await rulesBroken(page)).toEqual([]);
  await bringIn(page, 'Bring in this patient');
  await expect(page.getByText('1 new patient')).toBeVisible();
  const imported = page.url();

  await page.goto('/patients?q=OLD-1');
  await page.getByRole('link', { name: /OLD-1/ }).first().click();
  await expect(page.getByRole('link', { name: '3 Feb 2026' })).toBeVisible();
  await expect(page.getByRole('link', { name: '6 Jan 2026' })).toBeVisible();
  const patient = page.url();

  const bundle = await page.request.get(`${patient}/export?as=fhir`);
  expect(bundle.headers()['content-type']).toBe('application/fhir+json');
  await upload(page, 'same.json', await bundle.text());
  await bringIn(page, 'Bring in this patient');
  await expect(page.getByText('1 known patient, all there already')).toBeVisible();

  await page.goto(imported);
  await page.getByText('Take the whole import back').click();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await expect(page.getByText('1 taken back')).toBeVisible();
  expect((await page.goto(patient))?.status()).toBe(404);
});

test('a workbook as clinics have it: what was read past is said, lost points are mended once for the whole file', async ({ page }) => {
  const book = (name: string) => fs.readFileSync(path.resolve(import.meta.dirname, `../reference/workbooks/${name}.xlsx`));
  await upload(page, 'lost-points.xlsx', book('lost-points'));
  await page.getByLabel('6 figures stand a thousandfold, as 22525').selectOption('thousandths');
  await page.getByLabel('Girths and distances are in').selectOption('cm');
  await page.getByLabel('Limb', { exact: true }).selectOption('leg');
  await page.getByLabel('Distances begin at').selectOption('ankle-crease');
  await page.getByLabel('Reference of the patient').fill('OLD-9');
  await page.getByRole('textbox', { name: 'Born' }).fill('1961-04-30');
  await page.getByLabel('Growth table').selectOption('F');
  await page.getByRole('button', { name: 'Read it so' }).click();
  await expect(page.getByText('1 patient, 2 visits, 6 girths.')).toBeVisible();
  await page.getByRole('button', { name: 'Let the file go' }).click();
  await upload(page, 'chart.xlsx', book('chart-two-figure-years'));
  await expect(page.getByText('Say once which century is meant.')).toBeVisible();
  await page.getByLabel('Years of two figures').selectOption('2099');
  await page.getByLabel('Days are written').selectOption('dmy');
  await page.getByLabel('Girths and distances are in').selectOption('cm');
  await page.getByLabel('Side', { exact: true }).selectOption('right');
  await page.getByLabel('Distances begin at').selectOption('ankle-crease');
  await page.getByLabel('Reference of the patient').fill('OLD-9');
  await page.getByRole('textbox', { name: 'Born' }).fill('1961-04-30');
  await page.getByLabel('Growth table').selectOption('F');
  await page.getByRole('button', { name: 'Read it so' }).click();
  await expect(page.getByText('1 patient, 3 visits, 11 girths.')).toBeVisible();
  await expect(page.getByText('1 row of sums or means was left out: row 7 “Total”.')).toBeVisible();
  expect(await rulesBroken(page)).toEqual([]);
  await page.getByRole('button', { name: 'Let the file go' }).click();
});

test('the clinic goes out as a workbook and comes back as a set', async ({ page }) => {
  const answer = await page.request.get('/clinic/exchange/file?as=workbook');
  expect(answer.headers()['content-type']).toContain('spreadsheetml');
  await upload(page, 'clinic.xlsx', new Uint8Array(await answer.body()));
  await expect(page.getByText(/^\d+ patients, \d+ visits, \d+ girths\.$/)).toBeVisible();
  await expect(page.getByText('could not be read')).toHaveCount(0);
  await page.getByRole('button', { name: 'Let the file go' }).click();
});

test('a lead sets when calendar programs remind, and the file says so', async ({ page }) => {
  await page.goto('/clinic/calendar');
  await page.getByLabel('Calendar programs remind of a date').selectOption('7');
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText('Set now: calendar programs remind of a date 7 days before, at nine.')).toBeVisible();
  await expect(page.getByLabel('Calendar programs remind of a date')).toHaveValue('7');
  const file = await (await page.request.get('/clinic/calendar/file')).text();
  expect(file).toContain('TRIGGER:-PT159H');
  await page.getByLabel('Calendar programs remind of a date').selectOption('');
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText('Set now: calendar programs remind of a date not at all.')).toBeVisible();
  await expect(page.getByLabel('Calendar programs remind of a date')).toHaveValue('');
});

test('each bad cell is named by line and column, and its patient stays out whole', async ({ page }) => {
  const rows = 'ref,date,dob,sex,0,8\nROW-1,2026-03-02,1990-01-31,F,21.5,24\nROW-2,2026-03-02,1990-01-31,F,1.2.3,24\n';
  await upload(page, 'rows.csv', rows);
  await page.getByLabel('Limb', { exact: true }).selectOption('leg');
  await page.getByLabel('Side', { exact: true }).selectOption('right');
  await page.getByLabel('Distances begin at').selectOption('ankle-crease');
  await page.getByLabel('Girths and distances are in').selectOption('cm');
  await page.getByRole('button', { name: 'Read it so' }).click();
  await expect(page.getByText('1 patient, 1 visit, 2 girths.')).toBeVisible();
  await page.getByText('1 cell could not be read.').click();
  await expect(page.getByRole('cell', { name: '0 (column E)' })).toBeVisible();
  await page.getByRole('button', { name: 'Let the file go' }).click();
  await expect(page.getByText('stopped', { exact: true })).toBeVisible();
  await page.goto('/patients?q=ROW-1');
  await expect(page.getByRole('link', { name: /ROW-1/ })).toHaveCount(0);
});

test('the clinic goes out for spreadsheets, to the letter and for research; only what a style promises is inside', async ({ page }) => {
  const set = async (style: string) => {
    const answer = await page.request.get(`/clinic/exchange/file?as=${style}`);
    expect(answer.headers()['content-disposition']).toContain('attachment');
    return unzipSync(new Uint8Array(await answer.body()));
  };
  const raw = await set('raw');
  const subjects = parse(strFromU8(raw['subject.csv'] ?? new Uint8Array()), { columns: true }) as Record<string, string>[];
  expect(subjects.map(({ name }) => name)).toContain('Mira Oduya');
  const rungs = parse(strFromU8(raw['rung.csv'] ?? new Uint8Array()), { columns: true }) as Record<string, string>[];
  expect(rungs.length).toBeGreaterThan(100);
  expect(Object.keys(raw)).toContain('set-metadata.json');
  await upload(page, 'clinic.zip', new Uint8Array(await (await page.request.get('/clinic/exchange/file?as=sheets')).body()));
  await expect(page.getByText(new RegExp(`^${subjects.length} patients, \\d+ visits, \\d+ girths\\.$`))).toBeVisible();
  await page.getByRole('button', { name: 'Let the file go' }).click();
  await expect(page.getByText('stopped', { exact: true })).toBeVisible();
  const research = await set('research');
  const text = Object.values(research)
    .map((file) => strFromU8(file))
    .join('');
  expect(text).not.toMatch(/Oduya|Fontane|HL-0147|\d{4}-\d{2}-\d{2},/);
  expect(strFromU8((await set('sheets'))['set-metadata.json'] ?? new Uint8Array())).toContain('"urn:rungwise:defused": true');
});

test('hostile files are refused with a reason, and nothing of them is kept', async ({ page }) => {
  const refused = async (name: string, content: string | Uint8Array, words: RegExp) => {
    await upload(page, name, content);
    await expect(page.getByText(words).first()).toBeVisible();
    await expect(page.getByRole('button', { name: /Bring in/ })).toHaveCount(0);
  };
  await refused('binary.csv', new Uint8Array([1, 0, 2, 0, 3, 0, 0, 0]), /The file is not text/);
  await refused('broken.zip', strToU8('PK but no pack'), /cannot be opened/);
  await refused('packed bomb.zip', zipSync({ 'rung.csv': new Uint8Array(40 * 1024 * 1024) }), /larger than 32 MB/);
  await refused('prose.txt', 'Dear colleague\nhere are the ladders\n', /This is not a table/);
  await refused('bundle.json', '{"resourceType":"Patient"}', /no number to be filed under/);
  await refused('wide.csv', `${'1,'.repeat(2000)}1\n`, /more than 1000 columns/);
  const formulas = 'place,2026-03-02\n0,=1+1\n8,@SUM(A1)\n';
  await upload(page, 'formulas.csv', formulas);
  for (const [box, value] of [
    ['Limb', 'leg'],
    ['Side', 'right'],
    ['Girths and distances are in', 'cm'],
    ['Distances begin at', 'ankle-crease'],
    ['Growth table', 'F'],
  ] as const)
    await page.getByLabel(box, { exact: true }).selectOption(value);
  await page.getByLabel('Reference of the patient').fill('F-1');
  await page.getByLabel('Born').fill('1980-05-17');
  await page.getByRole('button', { name: 'Read it so' }).click();
  await expect(page.getByText('2 cells could not be read.')).toBeVisible();
});

test('while a large file is looked at, everybody else is answered', async ({ page, request, baseURL }) => {
  test.setTimeout(120_000);
  await page.goto('/clinic/exchange');
  await page.getByLabel('A file').setInputFiles({ name: 'large.csv', mimeType: 'text/csv', buffer: Buffer.from(largeLadders(1500)) });
  let looking = true;
  const began = performance.now();
  const looked = (async () => {
    await page.getByRole('button', { name: 'Look at the file' }).click();
    await expect(page.getByText('1500 patients, 3000 visits, 30000 girths.')).toBeVisible({ timeout: 90_000 });
    looking = false;
  })();
  let longest = 0;
  while (looking) {
    const asked = performance.now();
    expect((await request.get(`${baseURL}/api/health`)).status()).toBe(200);
    longest = Math.max(longest, performance.now() - asked);
  }
  await looked;
  const all = performance.now() - began;
  console.log(
    `      a file of 30,000 rows was looked at in ${(all / 1000).toFixed(1)} s; the longest anybody waited: ${longest.toFixed(0)} ms`,
  );
  expect(longest / all).toBeLessThan(0.25);
  await page.getByRole('button', { name: 'Let the file go' }).click();
});

test('a file of more than 32 MB is let go while it comes in', async ({ request }) => {
  const big = Buffer.alloc(33 * 1024 * 1024, '1,2\n');
  const answer = await request.post('/clinic/exchange/upload', {
    multipart: { file: { name: 'big.csv', mimeType: 'text/csv', buffer: big } },
    headers: { origin: new URL(test.info().project.use.baseURL ?? '').origin },
    maxRedirects: 0,
  });
  expect(answer.status()).toBe(303);
  expect(answer.headers().location).toContain('refused=too%20large');
});

test.describe('somebody who only reads', () => {
  test.use({ storageState: { cookies: [], origins: [] } });

  test('is not let near imports, and may take one patient along', async ({ page }) => {
    await page.goto('/sign-in');
    await page.getByLabel('E-mail').fill(PEOPLE.reader.email);
    await page.getByLabel('Password').fill(PASSWORD);
    await page.getByRole('button', { name: 'Sign in' }).click();
    await expect(page).toHaveURL('/');
    await page.goto('/clinic/exchange');
    await expect(page).toHaveURL('/not-allowed');
    await page.goto('/patients?q=HL-0147');
    await page
      .getByRole('link', { name: /Mira Oduya/ })
      .first()
      .click();
    await page.getByText('This record as a file').click();
    const taken = page.waitForEvent('download');
    await page.getByRole('link', { name: 'For a spreadsheet' }).click();
    expect((await taken).suggestedFilename()).toBe('HL-0147-sheets.zip');
  });
});

test('the screen of files in and out passes axe in light and dark, and fits a phone', async ({ page }) => {
  await page.goto('/clinic/exchange');
  expect(await screenFaults(page)).toEqual([]);
});
