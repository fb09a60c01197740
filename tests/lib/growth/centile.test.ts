import { cumulativeStdNormalProbability } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { bodyMassIndex } from '@/lib/growth/body-mass-index';
import { centileOf, showCentile } from '@/lib/growth/centile';

describe('centiles', () => {
  it('agrees with the standard normal distribution: quantiles printed in its tables', () => {
    // Common tables of the normal distribution.
    for (const [z, centile] of [
      [-2.326348, 1],
      [-1.880794, 3],
      [-0.67449, 25],
      [0, 50],
      [1.036433, 85],
      [1.644854, 95],
      [2, 97.72499],
    ] as const) {
      expect(centileOf(z)).toBeCloseTo(centile, 3);
    }
  });

  it('agrees with the normal table of simple-statistics to its four places', () => {
    for (let z = -3; z <= 3; z += 0.1) expect(Math.abs(centileOf(z) - 100 * cumulativeStdNormalProbability(z))).toBeLessThan(0.01);
  });

  it('is said the way people say it', () => {
    expect([0.4, 1, 2.2, 3, 11.6, 12, 13, 21, 52.3, 99, 99.6].map(showCentile)).toEqual([
      'below the 1st centile',
      '1st centile',
      '2nd centile',
      '3rd centile',
      '12th centile',
      '12th centile',
      '13th centile',
      '21st centile',
      '52nd centile',
      '99th centile',
      'above the 99th centile',
    ]);
  });
});

describe('body mass index', () => {
  it('is kilograms over metres squared, and nothing without both', () => {
    expect(bodyMassIndex(80, 200)).toBe(20);
    expect(bodyMassIndex(0, 150)).toBeUndefined();
    expect(bodyMassIndex(40, Number.NaN)).toBeUndefined();
  });
});
