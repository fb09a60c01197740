import path from 'node:path';
import { chromium } from '@playwright/test';
import { namesGiven } from '../no-arguments.mjs';
import { ROOT } from '../start/prepare.mjs';

/** The demonstration clinic's sign-in, as `npm run demo` prints it. */
const SIGN_IN = { email: 'demo@harbour-lane.example', password: 'made-up people only' };

/** What the README shows: a screen of the running demonstration clinic, its width, and the file in public/. */
const PICTURES = [
  { of: '/', width: 1280, file: 'today.png' },
  { of: 'Mira Oduya', width: 1280, file: 'patient.png' },
  { of: 'Mira Oduya', width: 1280, file: 'patient-dark.png', dark: true },
  { of: 'Mira Oduya', open: 'a[href$="/visits/new"]', width: 1280, file: 'ladder-sheet.png' },
  { of: 'Mira Oduya', open: 'a[href*="/visits/"]:not([href$="new"])', width: 1280, file: 'visit-result.png' },
  { of: 'Mira Oduya', width: 390, file: 'patient-phone.png' },
];

/** Takes the README's pictures from a running demonstration clinic: `npm run demo`, then `npm run pictures -- http://127.0.0.1:3000`. */
async function pictures(address) {
  const executablePath = process.env.CHROMIUM_PATH ?? '/usr/bin/chromium';
  const browser = await chromium.launch({ executablePath, args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
  const page = await browser.newPage({ locale: 'en-GB', baseURL: address });
  const answers = await page.goto('/sign-in').catch(() => null);
  if (!answers?.ok()) {
    await browser.close();
    console.error(`Nothing answers at ${address}. Start the demonstration first: npm run demo.`);
    process.exitCode = 1;
    return;
  }
  await page.getByLabel('E-mail').fill(SIGN_IN.email);
  await page.getByLabel('Password').fill(SIGN_IN.password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL('/');
  for (const picture of PICTURES) {
    await page.setViewportSize({ width: picture.width, height: 900 });
    await page.emulateMedia({ colorScheme: picture.dark ? 'dark' : 'light' });
    if (picture.of.startsWith('/')) await page.goto(picture.of);
    else {
      await page.goto(`/patients?q=${encodeURIComponent(picture.of)}`);
      await page.getByRole('link', { name: picture.of }).first().click();
      await page.getByRole('heading', { level: 1, name: picture.of }).waitFor();
      if (picture.open) {
        const address = await page.locator(picture.open).first().getAttribute('href');
        await page.goto(address ?? '/');
      }
    }
    await page.waitForLoadState('networkidle');
    await page.screenshot({
      path: path.join(ROOT, 'public', picture.file),
      fullPage: picture.open === undefined || picture.file === 'visit-result.png',
    });
  }
  await browser.close();
}

const [address = 'http://127.0.0.1:3000'] = namesGiven(
  'npm run pictures [-- http://127.0.0.1:3000]\n  Takes the README’s pictures from a running demonstration clinic.',
  1,
);
await pictures(address);
