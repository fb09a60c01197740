import { describe, expect, it } from 'vitest';
import { akaikePenalty } from '@/lib/statistics/akaike-penalty';

describe('the price of parameters (Hurvich and Tsai 1989, closed form)', () => {
  it('is 2k + 2k(k+1)/(n−k−1) in small samples, 2k in larger ones', () => {
    expect(akaikePenalty(1, 8)).toBeCloseTo(2 + 4 / 6, 12);
    expect(akaikePenalty(2, 10)).toBeCloseTo(4 + 12 / 7, 12);
    expect(akaikePenalty(2, 14)).toBeCloseTo(4 + 12 / 11, 12);
    expect(akaikePenalty(2, 15)).toBe(4);
  });

  it('leaves the correction out where it has no value', () => {
    expect(akaikePenalty(1, 2)).toBe(2);
    expect(akaikePenalty(2, 3)).toBe(4);
    expect(akaikePenalty(2, 1)).toBe(4);
    expect(akaikePenalty(2, 4)).toBe(4 + 12);
  });
});
