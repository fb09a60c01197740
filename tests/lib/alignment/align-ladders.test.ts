import { describe, expect, it } from 'vitest';
import { alignLadders, toEarlier, toLater } from '@/lib/alignment/align-ladders';
import { placeCovariance } from '@/lib/alignment/place-covariance';
import { type LineAtVisit, placeLandmarks } from '@/lib/alignment/place-landmarks';
import type { LandmarkId } from '@/lib/ladder/limb';

const SIGMA = 5;

function visit(day: number, landmarks: Partial<Record<LandmarkId, number>>, rest: Partial<LineAtVisit> = {}): LineAtVisit {
  const line = { placesMm: [40, 80], girthsMm: [200, 210], landmarks: new Map(Object.entries(landmarks) as [LandmarkId, number][]) };
  return { day, line, bodyHeightMm: undefined, ...rest };
}

/** An adult's segments do not change; the tiny SD keeps the arithmetic regular. */
const NO_STRETCH = { ratio: 1, sd: 0.002 };

function aligned(earlier: LineAtVisit, later: LineAtVisit, growing = false, stretch = NO_STRETCH) {
  const [one, other] = placeLandmarks([earlier, later], 'leg', growing, SIGMA);
  return one && other && alignLadders(one, other, 'leg', stretch);
}

describe('aligning two ladders', () => {
  it('moves an adult limb by the mean landmark difference, SE σ√(2/K): 6.7 mm ± 4.1 for 0, 280, 590 against 0, 290, 600', () => {
    // Closed form of the mean of three differences 0, 10, 10 with SD σ√2 each.
    const alignment = aligned(
      visit(0, { 'ankle-crease': 0, knee: 280, 'gluteal-fold': 590 }),
      visit(90, { 'ankle-crease': 0, knee: 290, 'gluteal-fold': 600 }),
    );
    if (!alignment) throw new Error('nothing aligned');
    for (const place of [0, 100, 280, 590, 700]) expect(toLater(alignment, place) - place).toBeCloseTo(20 / 3, 0);
    expect(Math.sqrt(placeCovariance(alignment, 280, 280))).toBeCloseTo(SIGMA * Math.sqrt(2 / 3), 1);
    expect(alignment.zeroStepMm).toBeCloseTo(20 / 3, 0);
  });

  it('weighs a child’s taped distance with the expected one by inverse variance', () => {
    // Two landmarks: taped stretch 300 → 318, SD 5·2 = 10; expected 1.03·300 = 309, SD 0.01·300 = 3: (318/100 + 309/9)/(1/100 + 1/9).
    const alignment = aligned(visit(0, { 'ankle-crease': 0, knee: 300 }), visit(180, { 'ankle-crease': 0, knee: 318 }), true, {
      ratio: 1.03,
      sd: 0.01,
    });
    if (!alignment) throw new Error('nothing aligned');
    const stretched = toLater(alignment, 300) - toLater(alignment, 0);
    expect(stretched).toBeCloseTo((318 / 100 + 309 / 9) / (1 / 100 + 1 / 9), 6);
  });

  it('goes back where it came from', () => {
    const alignment = aligned(visit(0, { 'ankle-crease': 0, knee: 300 }), visit(180, { 'ankle-crease': 10, knee: 330 }), true, {
      ratio: 1.04,
      sd: 0.02,
    });
    if (!alignment) throw new Error('nothing aligned');
    for (const place of [-50, 0, 150, 300, 520]) expect(toEarlier(alignment, toLater(alignment, place))).toBeCloseTo(place, 9);
  });

  it('is less sure beyond the outer landmark, by the error of the expected stretch', () => {
    // One landmark: variance 2σ² = 50, and 300 mm away (0.01·300)² = 9 more.
    const alignment = aligned(visit(0, { 'ankle-crease': 0 }), visit(180, { 'ankle-crease': 0 }), true, { ratio: 1.03, sd: 0.01 });
    if (!alignment) throw new Error('nothing aligned');
    expect(placeCovariance(alignment, 0, 0)).toBeCloseTo(50, 6);
    expect(placeCovariance(alignment, 300, 300)).toBeCloseTo(59, 6);
    expect(placeCovariance(alignment, 300, -100)).toBeCloseTo(50 - 3, 6);
  });

  it('infers an adult’s landmark at the same distance and a child’s by (H₂/H₁)^1.2, flagged and less sure', () => {
    const taped = visit(0, { 'ankle-crease': 0, knee: 280 }, { bodyHeightMm: 1300 });
    const bare = visit(90, { 'ankle-crease': 0 }, { bodyHeightMm: 1365 });
    const adult = placeLandmarks([taped, bare], 'leg', false, SIGMA)[1]?.landmarks.get('knee');
    expect([adult?.placeMm, adult?.inferred]).toEqual([280, true]);
    expect(adult?.sdMm).toBeCloseTo(Math.sqrt(3 * 25 + 5.6 ** 2), 9);
    const child = placeLandmarks([taped, bare], 'leg', true, SIGMA)[1]?.landmarks.get('knee');
    expect(child?.placeMm).toBeCloseTo(280 * 1.05 ** 1.2, 9);
  });

  it('leans on inferred landmarks only where none was taped twice, and says so', () => {
    const both = aligned(visit(0, { 'ankle-crease': 0, knee: 280 }), visit(90, { 'ankle-crease': 0 }));
    expect(both?.earlierMm).toEqual([0]);
    expect(both?.inferred).toBe(false);
    const [, second, third] = placeLandmarks(
      [visit(0, { 'ankle-crease': 0, 'gluteal-fold': 590 }), visit(90, { 'ankle-crease': 0 }), visit(180, { 'gluteal-fold': 0 })],
      'leg',
      false,
      SIGMA,
    );
    const across = second && third && alignLadders(second, third, 'leg', NO_STRETCH);
    expect(across?.inferred).toBe(true);
    expect(across && toLater(across, 0)).toBeCloseTo(-590, 6);
  });

  it('compares ladders from the same place in words by that place, and none from different places', () => {
    const from = (zero: string) => visit(0, {}, { zero });
    const same = aligned(from('10 cm above the patella'), from('10 cm  above the Patella'));
    expect(same && toLater(same, 55)).toBeCloseTo(55, 9);
    expect(same && Math.sqrt(placeCovariance(same, 0, 0))).toBeCloseTo(SIGMA * Math.SQRT2, 6);
    expect(aligned(from('10 cm above the patella'), from('mid-thigh'))).toBeUndefined();
  });

  it('measures how badly landmarks agree: χ² of 35.9 for a knee misread by 6 cm beside a zero, one degree of freedom', () => {
    // Closed form: difference 60 with variance 2·50 + (0.002·280)²: 3600/100.3 = 35.9; spread over two landmarks nothing else remains.
    const alignment = aligned(visit(0, { 'ankle-crease': 0, knee: 280 }), visit(90, { 'ankle-crease': 0, knee: 340 }));
    expect(alignment?.strain).toBeCloseTo(3600 / (100 + 0.56 ** 2), 3);
    const alike = aligned(visit(0, { 'ankle-crease': 0, knee: 280 }), visit(90, { 'ankle-crease': 0, knee: 280 }));
    expect(alike?.strain).toBeCloseTo(0, 9);
  });

  it('is refused when landmarks do not lie in order', () => {
    expect(aligned(visit(0, { 'ankle-crease': 0, knee: 280 }), visit(1, { 'ankle-crease': 0, knee: -280 }))).toBeUndefined();
    expect(aligned(visit(0, { 'ankle-crease': 0, knee: 0 }), visit(1, { 'ankle-crease': 0, knee: 280 }))).toBeUndefined();
  });
});
