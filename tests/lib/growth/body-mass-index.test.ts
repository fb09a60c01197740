import { describe, expect, it } from 'vitest';
import { bodyMassIndex } from '@/lib/growth/body-mass-index';

describe('body mass index', () => {
  it('is weight by the square of height: 70 / 1.75² = 22.857', () => expect(bodyMassIndex(70, 175)).toBeCloseTo(22.857, 3));
  it.each([
    [70, 0],
    [0, 175],
    [70, -175],
    [Number.NaN, 175],
  ])('of %d kg and %d cm is none', (kg, cm) => expect(bodyMassIndex(kg, cm)).toBeUndefined());
});
