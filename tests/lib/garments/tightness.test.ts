import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { relaxedGirth } from '@/lib/garments/relaxed-girth';
import { relativeTightness, tightnessSlope } from '@/lib/garments/tightness';

/** Pressure of a thin sleeve whose tension is k times its strain: p = 2πkε/C. Written here apart from the code, as in the trade's texts. */
function pressure(relaxed: number, limb: number, k = 1): number {
  return (2 * Math.PI * k * (limb / relaxed - 1)) / limb;
}

describe('relative tightness', () => {
  it('is the ratio of two Laplace pressures of one linear fabric', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 700, noNaN: true }),
        fc.double({ min: 0.05, max: 0.4, noNaN: true }),
        fc.double({ min: 0.99, max: 1.3, noNaN: true }),
        (fitted, r, grown) => {
          const relaxed = fitted * (1 - r);
          const now = fitted * grown;
          return Math.abs(relativeTightness(relaxed, now, fitted) - pressure(relaxed, now) / pressure(relaxed, fitted)) < 1e-9;
        },
      ),
      { seed: 5 },
    );
  });

  it.each([
    // Worked figures: growth 20.0 → 20.6 cm at r 10 % is ×1.262, at 20 % ×1.117; ±1, 3, 5 % by the exact form.
    [0.1, 1.03, 1.262],
    [0.2, 1.03, 1.117],
    [0.1, 1.01, 1.089],
    [0.1, 0.99, 0.909],
    [0.15, 1.03, 1.165],
    [0.15, 0.97, 0.825],
    [0.2, 1.05, 1.19],
    [0.1, 0.95, 0.526],
  ])('r %d, girth × %d: × %d', (r, grown, expected) => {
    expect(relativeTightness(200 * (1 - r), 200 * grown, 200)).toBeCloseTo(expected, 3);
  });

  it.each([
    // Girth change that takes 20 mmHg to 25 and to 15: r 10 % +2.9/−2.7, 15 % +4.6/−4.2, 20 % +6.7/−5.9 %.
    [0.1, 1.029, 0.973],
    [0.15, 1.046, 0.958],
    [0.2, 1.067, 0.941],
  ])('leaves the band of 0.75 to 1.25 where the closed form and the table say, r %d', (r, high, low) => {
    // (1/G − 1/C) / (1/G − 1) = p solved for C, with G = 1 − r.
    const at = (p: number) => 1 / (1 / (1 - r) - p * (1 / (1 - r) - 1));
    expect(relativeTightness(1 - r, at(1.25), 1)).toBeCloseTo(1.25, 9);
    expect(relativeTightness(1 - r, at(0.75), 1)).toBeCloseTo(0.75, 9);
    expect([Math.abs(at(1.25) - high) < 0.0006, Math.abs(at(0.75) - low) < 0.0006]).toEqual([true, true]);
  });

  it.each([
    // d ln P / d ln C = 1/r − 1: 9.0, 5.7 and 4.0.
    [0.1, 9],
    [0.15, 1 / 0.15 - 1],
    [0.2, 4],
  ])('changes by 1/r − 1 with girth at the fitting, r %d', (r, slope) => {
    expect(tightnessSlope(200 * (1 - r), 200, 200)).toBeCloseTo(slope, 9);
  });

  it('undoes a fatigue to 0.65 at girths larger by 6.4, 10.5 and 15.6 % for r 10, 15 and 20 %', () => {
    for (const [r, grown] of [
      [0.1, 1.064],
      [0.15, 1.105],
      [0.2, 1.156],
    ] as const)
      expect(0.65 * relativeTightness(1 - r, grown, 1)).toBeCloseTo(1, 2);
  });

  it('is 0 on a limb that no longer fills the piece', () => {
    expect(relativeTightness(180, 180, 200)).toBe(0);
    expect(relativeTightness(180, 150, 200)).toBe(0);
  });

  it('holds the worked pressures: 20 mmHg at 25 cm are 33.3 at 15 and 10.0 at 50 cm, one reduction', () => {
    const at = (girth: number) => (20 * pressure(relaxedGirth(girth, 15, 'C(1-r)'), girth)) / pressure(relaxedGirth(25, 15, 'C(1-r)'), 25);
    expect([12, 15, 20, 30, 40, 50, 60].map((girth) => Number(at(girth).toFixed(1)))).toEqual([41.7, 33.3, 25, 16.7, 12.5, 10, 8.3]);
  });
});

describe('the relaxed girth', () => {
  it('keeps the two conventions apart: 20 % of C/(1+r) is 16.7 % of C(1−r), 15 % is 13.0, 10 % is 9.1', () => {
    for (const [r, equal] of [
      [20, 16.7],
      [15, 13],
      [10, 9.1],
    ] as const)
      expect(100 * (1 - relaxedGirth(300, r, 'C/(1+r)') / 300)).toBeCloseTo(equal, 1);
    expect(relaxedGirth(200, 15, 'C(1-r)')).toBeCloseTo(170, 9);
  });
});
