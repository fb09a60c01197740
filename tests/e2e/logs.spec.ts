import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { PASSWORD, PEOPLE } from './people';

const LOG = `${process.env.E2E_FOLDER ?? 'test-results/browser'}/server.log`;

type Line = { readonly at: string; readonly level: string; readonly kind: string; readonly request?: string; readonly address?: string };

function lines(): readonly Line[] {
  return fs
    .readFileSync(LOG, 'utf8')
    .split('\n')
    .filter((line) => line.trim().startsWith('{'))
    .map((line) => JSON.parse(line) as Line);
}

test('what a build would take along to another machine holds no database, no key and nothing of the tests', () => {
  const server = path.resolve('.next/server');
  const listed = fs.readdirSync(server, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.nft.json'));
  expect(listed.length).toBeGreaterThan(30);
  const taken = listed.flatMap((file) => {
    const { files } = JSON.parse(fs.readFileSync(path.join(server, file), 'utf8')) as { files: string[] };
    return files.map((one) => path.relative(process.cwd(), path.resolve(server, path.dirname(file), one)));
  });
  expect(taken.filter((file) => file.startsWith('db/migrations/')).length).toBeGreaterThan(0);
  expect(taken.filter((file) => /^(data|tests|test-results)\/|\.db$|-key$|-secret$/.test(file))).toEqual([]);
});

test('each request has an id in its answer and in the log; no line holds a name, a token or a figure', async ({ page, context }) => {
  await page.goto('/patients?q=Oduya');
  await page
    .getByRole('link', { name: /Mira Oduya/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Mira Oduya');
  await page.request.get('/share/SecretTokenOfAShare123');
  await page.request.get('/calendar/SecretTokenOfACalendar1');
  await page.request.post('/api/auth/sign-in/email', { data: { email: PEOPLE.second.email, password: 'a wrong pass phrase' } });
  const answer = await page.request.get('/api/health');
  expect(await answer.json()).toEqual({ database: 'ok' });
  const id = answer.headers()['x-request-id'];
  expect(id).toMatch(/^[0-9a-f-]{36}$/);
  await expect.poll(() => lines().some((line) => line.request === id)).toBe(true);

  expect((fs.statSync(LOG).mode & 0o077).toString(8), 'the log is for its owner only').toBe('0');
  const text = fs.readFileSync(LOG, 'utf8');
  const cookies = (await context.cookies()).map(({ value }) => decodeURIComponent(value).split('.')[0] ?? '');
  for (const secret of [
    'Oduya',
    'HL-0147',
    'SecretToken',
    PASSWORD,
    'a wrong pass',
    PEOPLE.second.email,
    PEOPLE.lead.email,
    ...cookies.filter(Boolean),
  ])
    expect(text, secret).not.toContain(secret);
  for (const { at, level, kind, address = '' } of lines()) {
    expect([new Date(at).toISOString(), ['info', 'error'].includes(level), ['request', 'error'].includes(kind)]).toEqual([at, true, true]);
    expect(address).not.toMatch(/\d|\?/);
  }
});
