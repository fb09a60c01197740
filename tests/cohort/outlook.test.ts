import { describe, expect, it } from 'vitest';
import { heldOutLimbs, tunedLimbs } from './limb-shape';
import { outlookTable } from './outlook-table';

describe.each([
  ['limbs the defaults were looked at with', tunedLimbs, 301],
  ['limbs that were never tuned on', heldOutLimbs, 402],
])('the outlook of a child’s piece on %s', (which, poolOf, seed) => {
  it('keeps its early outgrow day in 85 to 95 of a hundred, and its 90 % room in nine of ten', () => {
    const tallies = outlookTable(which, poolOf, 120, seed);
    const mean = (figure: 'earlyKept' | 'highEnough') => tallies.reduce((sum, tally) => sum + tally[figure], 0) / tallies.length;
    expect(mean('earlyKept')).toBeGreaterThanOrEqual(0.85);
    expect(mean('earlyKept')).toBeLessThanOrEqual(0.95);
    expect(mean('highEnough')).toBeGreaterThanOrEqual(0.88);
    for (const tally of tallies) expect(tally.earlyDays).toBeLessThan(tally.trueDays);
  });
});
