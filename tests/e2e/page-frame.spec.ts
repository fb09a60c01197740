import { expect, test } from '@playwright/test';

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
