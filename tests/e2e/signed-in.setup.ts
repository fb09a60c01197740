import path from 'node:path';
import { expect, test } from '@playwright/test';
import { PASSWORD, PEOPLE } from './people';

test('the lead signs in', async ({ page }, { project }) => {
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').fill(PEOPLE.lead.email);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page).toHaveURL('/');
  await page.context().storageState({ path: path.join(project.outputDir, '../lead.json') });
});
