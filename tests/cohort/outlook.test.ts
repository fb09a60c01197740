import { describe, expect, it } from 'vitest';
import { heldOutLimbs, tunedLimbs } from './limb-shape';
import type { OutlookTally } from './outlook-cohort';
import { isCutToday, outlookTable } from './outlook-table';

describe.each([
  ['limbs the defaults were looked at with', tunedLimbs, 301],
  ['limbs that were never tuned on', heldOutLimbs, 402],
])('the outlook of a child’s piece on %s', (which, poolOf, seed) => {
  const tallies = outlookTable(which, poolOf, 120, seed);
  const cutToday = tallies.filter((_, index) => isCutToday(index));
  const cutEarlier = tallies.filter((_, index) => !isCutToday(index));

  it('keeps the early outgrow day of a piece cut today in 85 to 95 of a hundred', () => {
    expect(mean(cutToday, 'earlyKept')).toBeGreaterThanOrEqual(0.85);
    expect(mean(cutToday, 'earlyKept')).toBeLessThanOrEqual(0.95);
  });

  it('keeps that of a piece cut earlier in at least 85', () => {
    expect(mean(cutEarlier, 'earlyKept')).toBeGreaterThanOrEqual(0.85);
  });

  /** An aim that is missed: it is kept in about 96, so the day comes a little earlier than it need. It passes once that is mended. */
  it.fails('keeps that of a piece cut earlier in at most 95', () => {
    expect(mean(cutEarlier, 'earlyKept')).toBeLessThanOrEqual(0.95);
  });

  it('has its 90 % room in nine of ten, and its early day before the true one', () => {
    expect(mean(tallies, 'highEnough')).toBeGreaterThanOrEqual(0.88);
    for (const tally of tallies) expect(tally.earlyDays).toBeLessThan(tally.trueDays);
  });
});

function mean(tallies: readonly OutlookTally[], figure: 'earlyKept' | 'highEnough'): number {
  return tallies.reduce((sum, tally) => sum + tally[figure], 0) / tallies.length;
}
