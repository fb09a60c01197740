import { describe, expect, it } from 'vitest';
import { type LineAtVisit, placeLandmarks } from '@/lib/alignment/place-landmarks';
import type { LandmarkId } from '@/lib/ladder/limb';

const visit = (day: number, landmarks: Partial<Record<LandmarkId, number>>): LineAtVisit => ({
  day,
  line: { placesMm: [40, 80], girthsMm: [200, 210], landmarks: new Map(Object.entries(landmarks) as [LandmarkId, number][]) },
  bodyHeightMm: undefined,
});
const kneeAt = (visits: readonly LineAtVisit[], which: number) => placeLandmarks(visits, 'leg', false, 5)[which]?.landmarks.get('knee');

// By hand: an adult's distance between two landmarks is carried over as it is; SD √(3·5² + (0.02·distance)²).
describe('a landmark that was not taped', () => {
  const [far, near] = [visit(0, { 'ankle-crease': 0, knee: 300 }), visit(80, { 'ankle-crease': 10, knee: 295 })];
  const bare = visit(100, { 'ankle-crease': 5 });
  it('is inferred from the visit nearest in time, in whatever order they stand', () => {
    for (const visits of [
      [far, near, bare],
      [near, far, bare],
    ])
      expect(kneeAt(visits, 2)?.placeMm).toBe(5 + 285);
    expect(kneeAt([far, near, bare], 2)?.sdMm).toBeCloseTo(Math.hypot(Math.sqrt(3) * 5, 0.02 * 285), 9);
    expect(kneeAt([far, near, bare], 2)?.inferred).toBe(true);
  });
  it('knows a zero in words again however it was spaced and whichever letters were large', () => {
    const own = (zero: string) => placeLandmarks([{ ...bare, zero }], 'leg', false, 5)[0]?.ownZero?.words;
    expect(own('  10 cm above the  Scar ')).toBe('10 cm above the scar');
    expect(own('ankle-crease')).toBeUndefined();
  });
  it('of two that are as near, the earlier in the list counts', () => {
    const after = visit(120, { 'ankle-crease': 0, knee: 310 });
    expect(kneeAt([near, bare, after], 1)?.placeMm).toBe(5 + 285);
    expect(kneeAt([after, bare, near], 1)?.placeMm).toBe(5 + 310);
  });
  it('is not invented without a shared landmark, nor where no landmark was taped', () => {
    expect(kneeAt([far, visit(10, { 'gluteal-fold': 600 })], 1)).toBeUndefined();
    expect(placeLandmarks([far, visit(10, {})], 'leg', false, 5)[1]?.landmarks.size).toBe(0);
    expect(kneeAt([far, near], 0)).toEqual({ placeMm: 300, sdMm: 5, inferred: false });
  });
});
