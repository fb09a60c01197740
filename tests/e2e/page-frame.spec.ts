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

test('a script that somebody brought into a page does not run, the page’s own do', async ({ page }) => {
  const refused: string[] = [];
  page.on('console', (message) => /Content Security Policy/i.test(message.text()) && refused.push(message.text()));
  await page.route('**/patients', async (route) => {
    const answer = await route.fetch();
    const body = (await answer.text()).replace('</head>', '<script>document.title = "brought in"</script></head>');
    await route.fulfill({ response: answer, body });
  });
  const answer = await page.goto('/patients');
  const policy = answer?.headers()['content-security-policy'] ?? '';
  expect(policy).toMatch(/script-src 'self' 'nonce-[A-Za-z0-9+/=]{24}';/);
  expect(policy).not.toContain('unsafe-inline');
  await page.getByRole('link', { name: 'New patient' }).first().click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/patient/i);
  expect(await page.title()).not.toContain('brought in');
  expect(refused.length, 'only the script brought in is refused').toBe(1);
});
