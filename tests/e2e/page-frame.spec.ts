import AxeBuilder from '@axe-core/playwright';
import { expect, test } from '@playwright/test';

const PAGES = [
  '/',
  '/patients',
  '/patients?q=nobody',
  '/patients/new',
  '/pieces',
  '/clinic',
  '/clinic/people',
  '/account',
  '/not-allowed',
  '/no-such-page',
];

for (const colorScheme of ['light', 'dark'] as const) {
  test(`no page breaks a rule of WCAG 2.2 A or AA that axe can see, ${colorScheme}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme });
    for (const place of PAGES) {
      await page.goto(place);
      const { violations } = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']).analyze();
      expect(violations.map((one) => `${place} ${one.id} ${one.nodes[0]?.html}`)).toEqual([]);
    }
  });
}

test('no page is wider than its window at 320, 390, 834 and 1280', async ({ page }) => {
  for (const width of [320, 390, 834, 1280]) {
    await page.setViewportSize({ width, height: 800 });
    for (const place of PAGES) {
      await page.goto(place);
      expect(await page.evaluate(() => document.documentElement.scrollWidth), `${place} at ${width}`).toBeLessThanOrEqual(width);
    }
  }
});

test('the page head marks the place shown, and paper has no page head', async ({ page }) => {
  await page.goto('/patients/new');
  await expect(page.getByRole('navigation', { name: 'Places' }).locator('[aria-current=page]')).toHaveText('Patients');
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByRole('navigation', { name: 'Places' })).toBeHidden();
});

test('answers forbid framing, sniffing and naming the framework', async ({ request }) => {
  const { 'content-security-policy': policy, ...headers } = (await request.get('/patients')).headers();
  expect(policy).toContain("frame-ancestors 'none'");
  expect(headers).toMatchObject({ 'x-content-type-options': 'nosniff', 'x-frame-options': 'DENY' });
  expect(headers).not.toHaveProperty('x-powered-by');
});
