import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

const WCAG_2_2_AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What a colour scheme or a width of the window can change; names, roles and order are the same in each. */
const BY_LOOK = ['color-contrast', 'target-size', 'scrollable-region-focusable', 'link-in-text-block'];

/**
 * The rules of WCAG 2.2 A and AA that axe sees broken on a page: `rule first-element` each.
 *
 * `again` asks a page that was asked whole before, in another scheme or width: only what the look can change.
 */
export async function rulesBroken(page: Page, again = false): Promise<string[]> {
  const axe = new AxeBuilder({ page });
  const { violations } = await (again ? axe.withRules(BY_LOOK) : axe.withTags(WCAG_2_2_AA)).analyze();
  return violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`);
}
