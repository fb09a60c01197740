import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

const WCAG_2_2_AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What a colour scheme or the width of the window can change; names, roles and order are the same in each. */
const BY_LOOK = ['color-contrast', 'target-size', 'scrollable-region-focusable', 'link-in-text-block'];

/** The rules of WCAG 2.2 A and AA that axe sees broken on the page as it stands, `rule first-element` each. */
export async function rulesBroken(page: Page): Promise<string[]> {
  return told(await new AxeBuilder({ page }).withTags(WCAG_2_2_AA).analyze());
}

/**
 * What is wrong with an open screen, everything that folds unfolded: rules broken in light at the first width, what the look can change
 * once more in the dark at the last one, and each width (px) that the page does not fit. The dark look is in a window as high as the page:
 * what stays in view while the page is scrolled covers nothing there, wherever the page happens to stand.
 */
export async function screenFaults(page: Page, widths: readonly number[] = [1280, 834, 320]): Promise<string[]> {
  const found: string[] = [];
  await page.locator('details').evaluateAll((all) => {
    for (const one of all) (one as HTMLDetailsElement).open = true;
  });
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  for (const [index, width] of widths.entries()) {
    await page.setViewportSize({ width, height: 900 });
    await drawn(page);
    const needed = await page.evaluate(() => document.documentElement.scrollWidth);
    if (needed > width) found.push(`${needed} px wide in a window of ${width}`);
    if (index === 0) found.push(...(await rulesBroken(page)));
  }
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.setViewportSize({ width: widths.at(-1) ?? 320, height: await page.evaluate(() => document.documentElement.scrollHeight) });
  await drawn(page);
  found.push(...told(await new AxeBuilder({ page }).withRules(BY_LOOK).analyze()).map((rule) => `dark: ${rule}`));
  await page.emulateMedia({ colorScheme: 'light' });
  await page.setViewportSize({ width: widths[0] ?? 1280, height: 900 });
  return found;
}

/** Two frames later: what watches the size of the page has answered to the new one. */
async function drawn(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

function told({ violations }: Awaited<ReturnType<AxeBuilder['analyze']>>): string[] {
  return violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`);
}
