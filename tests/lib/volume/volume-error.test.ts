import { describe, expect, it } from 'vitest';
import { spanVolume } from '@/lib/volume/span-volume';
import { relativeSd, volumeVariance } from '@/lib/volume/tape-error';
import { readingGain, volumeGradient } from '@/lib/volume/volume-gradient';
import { seeded } from '@/tests/cohort/random';

/** The made-up adult arm and leg of the research note on limb volume (girths in mm, a rung every 40 mm); its figures were computed apart. */
const ARM = [165, 176, 200, 228, 250, 256, 254, 268, 286, 302, 314];
const LEG = [225, 228, 250, 285, 320, 350, 365, 360, 350, 368, 395, 430, 465, 498, 525, 545];
const placesOf = (girths: readonly number[]) => girths.map((_, rung) => rung * 40);
const spanOf = (girths: readonly number[]) => ({ fromMm: 0, toMm: (girths.length - 1) * 40 });
const volumeOf = (girths: readonly number[]) => spanVolume(placesOf(girths), girths, spanOf(girths)) ?? Number.NaN;

describe('the gradient of a volume', () => {
  it('is that of central differences at every rung, with cut ends', () => {
    const places = [0, 30, 75, 110, 190];
    const girths = [220, 260, 240, 310, 350];
    for (const span of [
      { fromMm: 0, toMm: 190 },
      { fromMm: 12, toMm: 140 },
      { fromMm: 80, toMm: 100 },
    ]) {
      const gradient = volumeGradient(places, girths, span);
      girths.forEach((girth, rung) => {
        const nudged = (by: number) =>
          spanVolume(
            places,
            girths.map((one, index) => (index === rung ? girth + by : one)),
            span,
          ) ?? Number.NaN;
        expect(gradient[rung]).toBeCloseTo((nudged(0.01) - nudged(-0.01)) / 0.02, 4);
      });
    }
  });

  it('is h (C below + 4 C + C above) / 12π inside an evenly spaced ladder: 1574.573 mm² at the fifth rung of the arm', () => {
    // Closed form; 15.74573 ml per cm from the research note, by central difference.
    const gradient = volumeGradient(placesOf(ARM), ARM, spanOf(ARM));
    expect(gradient[4]).toBeCloseTo((40 * (228 + 4 * 250 + 256)) / (12 * Math.PI), 9);
    expect(gradient[4]).toBeCloseTo(1574.573, 3);
  });

  it('sums with the girths to twice the volume, whatever the span', () => {
    const span = { fromMm: 53, toMm: 377 };
    const gradient = volumeGradient(placesOf(LEG), LEG, span);
    const sum = gradient.reduce((total, slope, rung) => total + slope * (LEG[rung] as number), 0);
    expect(sum).toBeCloseTo(2 * (spanVolume(placesOf(LEG), LEG, span) ?? 0), 4);
  });
});

describe('the error of a volume', () => {
  const part = (girths: readonly number[], tape: Partial<{ readingMm: number; placementMm: number }>, tension = 0) =>
    100 *
    relativeSd(
      volumeVariance(
        placesOf(girths),
        girths,
        spanOf(girths),
        volumeOf(girths),
        { readingMm: 0, placementMm: 0, tensionSameMeasurer: 0, tensionOtherMeasurer: 0, ...tape },
        tension,
      ),
    );

  it('is that of the computed table: reading 0.3 cm, and zero slid by 0.5 cm', () => {
    // Research note, section 3: arm 0.74 % and 1.4 %, leg 0.40 % and 1.4 % (computed independently by script).
    expect(part(ARM, { readingMm: 3 })).toBeCloseTo(0.74, 2);
    expect(part(LEG, { readingMm: 3 })).toBeCloseTo(0.4, 2);
    expect(part(ARM, { placementMm: 5 })).toBeCloseTo(1.4, 1);
    expect(part(LEG, { placementMm: 5 })).toBeCloseTo(1.4, 1);
  });

  it('of tension is twice its share, and of placement is none on a cylinder', () => {
    expect(part(LEG, {}, 0.01)).toBeCloseTo(2, 9);
    expect(part([300, 300, 300], { placementMm: 5 })).toBeCloseTo(0, 9);
  });

  it('is that of 20,000 simulated tapings', () => {
    const random = seeded(11);
    const taped: number[] = [];
    for (let taping = 0; taping < 20_000; taping++) {
      const tension = 1 + random.normal(0.004);
      taped.push(volumeOf(LEG.map((girth) => girth * tension + random.normal(3))));
    }
    const mean = taped.reduce((sum, one) => sum + one, 0) / taped.length;
    const sd = Math.sqrt(taped.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (taped.length - 1)) / mean;
    // The SD of a simulated SD from n tapings is 1/√(2n) = 0.5 %; four of those.
    expect((100 * sd) / part(LEG, { readingMm: 3 }, 0.004)).toBeCloseTo(1, 1);
    expect(Math.abs((100 * sd) / part(LEG, { readingMm: 3 }, 0.004) - 1)).toBeLessThan(0.02);
  });

  it('never shrinks when a reading is less sure', () => {
    const gain = readingGain(placesOf(LEG), LEG, spanOf(LEG));
    expect(gain).toBeGreaterThan(0);
    for (let reading = 1; reading < 9; reading++)
      expect(part(LEG, { readingMm: reading + 1 })).toBeGreaterThan(part(LEG, { readingMm: reading }));
  });
});
