import { describe, expect, it } from 'vitest';
import { heldOutLimbs } from './limb-shape';
import { backtestBerkeley, backtestMadeUp } from './outgrow-backtest';
import { printReliability, reliabilityOf } from './reliability';

describe('stated chances of outgrowing', () => {
  it('score as the definition of Brier says, by hand', () => {
    const of = reliabilityOf([
      { chance: 0.8, sure: true, came: 1, weight: 1 },
      { chance: 0.8, sure: true, came: 0, weight: 1 },
    ]);
    // (0.04 + 0.64) / 2, (0 + 1) / 2, base rate 0.5: 0.25.
    expect([of.brier, of.brierSure, of.brierBaseRate].map((score) => Number(score.toFixed(6)))).toEqual([0.34, 0.5, 0.25]);
    expect(of.tenths[8]).toEqual({ n: 2, stated: 0.8, came: 0.5 });
  });

  it('beat constant z without a range, and the base rate, on made-up children whose growth is known', () => {
    const of = reliabilityOf(backtestMadeUp(heldOutLimbs, 25, 7001));
    printReliability('Made-up children, 30 to 180 days on', of);
    expect(of.n).toBeGreaterThan(1000);
    expect(of.brier).toBeLessThan(of.brierSure);
    expect(of.brier).toBeLessThan(of.brierBaseRate);
  });

  it('beat both on real children a year on', () => {
    const of = reliabilityOf(backtestBerkeley());
    printReliability('Berkeley Guidance Study, calf, a year on', of);
    expect(of.n).toBeGreaterThan(1000);
    expect(of.brier).toBeLessThan(of.brierSure);
    expect(of.brier).toBeLessThan(of.brierBaseRate);
  });
});
