import { describe, expect, it } from 'vitest';
import { isNoAnswer } from '@/lib/outcome';
import { excessReduction, excessVolume, relativeVolumeChange, weightAdjustedChange } from '@/lib/volume/excess';
import { DEFAULT_TAPE_ERROR } from '@/lib/volume/tape-error';

/*
 * Worked example of the project's research page on the course of care, section a, computed there by a script of its own: an arm every 4 cm
 * from the wrist, cm. 1 is the first visit, 2 the later one; A the affected arm, U the other. Digits as printed there.
 */
const ARM = {
  u1: [16, 17.5, 20, 22.5, 24.5, 25, 25.5, 27, 28.5, 29.5, 30],
  a1: [17.5, 20, 24, 27, 29, 29.5, 29.5, 30.5, 31.5, 32, 32],
  a2: [17, 19, 22.5, 25, 27, 27.5, 27.5, 29, 30.5, 31, 31],
  u2: [16, 17.6, 20.2, 22.6, 24.7, 25.2, 25.7, 27.2, 28.8, 29.8, 30.4],
};
const lineOf = (girthsCm: readonly number[]) => ({
  placesMm: girthsCm.map((_, rung) => 40 * rung),
  girthsMm: girthsCm.map((girth) => 10 * girth),
});
const WHOLE = { fromMm: 0, toMm: 400 };
const TENSION = { affected: 0.004, other: 0.004, common: true };

function excessOf(affected: readonly number[], other: readonly number[], tension = TENSION) {
  const found = excessVolume(lineOf(affected), lineOf(other), WHOLE, DEFAULT_TAPE_ERROR, tension);
  if (isNoAnswer(found)) throw new Error(found.noAnswer);
  return found;
}

const first = excessOf(ARM.a1, ARM.u1);
const later = excessOf(ARM.a2, ARM.u2);

describe('excess volume, the printed arm', () => {
  it('has the printed totals of all four ladders', () => {
    expect(first.volumes.other / 1000).toBeCloseTo(1933.202, 4);
    expect(first.volumes.affected / 1000).toBeCloseTo(2512.0486, 4);
    expect(later.volumes.affected / 1000).toBeCloseTo(2255.4643, 4);
    expect(later.volumes.other / 1000).toBeCloseTo(1966.2702, 4);
  });

  it('is 578.8465 ml, 29.9424 %, and later 289.1941 ml, 14.7077 %', () => {
    expect(first.mm3 / 1000).toBeCloseTo(578.8465, 4);
    expect(100 * first.share).toBeCloseTo(29.9424, 4);
    expect(later.mm3 / 1000).toBeCloseTo(289.1941, 4);
    expect(100 * later.share).toBeCloseTo(14.7077, 4);
  });

  it('is 50.0396 % gone by the other limb of the same day', () => {
    const gone = excessReduction(first.volumes, later.volumes);
    if (isNoAnswer(gone)) throw new Error(gone.noAnswer);
    expect(100 * gone.sameDay).toBeCloseTo(50.0396, 4);
    // (2512.0486 − 2255.4643) / 578.8465, from the printed figures.
    expect(100 * gone.fixed).toBeCloseTo((100 * (2512.0486 - 2255.4643)) / 578.8465, 3);
  });

  it('the limb itself changed by −10.2141 %, RVC −11.7241 %, weight-adjusted −12.8293 % from 70 to 72.1 kg', () => {
    const ratio = later.volumes.affected / first.volumes.affected;
    expect(100 * (ratio - 1)).toBeCloseTo(-10.2141, 4);
    expect(100 * relativeVolumeChange(first.volumes, later.volumes)).toBeCloseTo(-11.7241, 4);
    expect(100 * weightAdjustedChange(ratio, 72.1 / 70)).toBeCloseTo(-12.8293, 4);
  });

  it('has the printed ten segments from the wrist up, in ml and in % of the same segment of the other arm', () => {
    expect(first.segments.map(({ mm3 }) => (mm3 / 1000).toFixed(2))).toEqual(
      '22.71 42.41 63.32 73.77 77.35 74.06 67.11 60.74 53.16 44.22'.split(' '),
    );
    // The page prints 37.9 for the second; by hand it is (20² + 20·24 + 24²) / (17.5² + 17.5·20 + 20²) − 1 = 1456 / 1056.25 − 1 = 37.846 %.
    expect(first.segments.map(({ share }) => (100 * share).toFixed(1))).toEqual(
      '25.4 37.8 44.0 41.9 39.7 36.5 30.6 24.8 19.9 15.7'.split(' '),
    );
    expect(first.segments.map(({ span }) => [span.fromMm, span.toMm])).toEqual(ARM.a1.slice(1).map((_, at) => [40 * at, 40 * at + 40]));
    expect(first.segments.reduce((sum, { mm3 }) => sum + mm3, 0) / 1000).toBeCloseTo(578.8465, 4);
  });

  it.each([
    ['far', 0, 200, 279.556, 39.03],
    ['near', 200, 400, 299.291, 24.59],
  ])('has the printed %s half', (_which, fromMm, toMm, ml, percent) => {
    const half = excessVolume(lineOf(ARM.a1), lineOf(ARM.u1), { fromMm, toMm }, DEFAULT_TAPE_ERROR, TENSION);
    if (isNoAnswer(half)) throw new Error(half.noAnswer);
    expect(half.mm3 / 1000).toBeCloseTo(ml, 3);
    expect(100 * half.share).toBeCloseTo(percent, 2);
  });
});

describe('one patient, five numbers (same page: A 3300 → 3150, U 3000 → 3060 ml, 60 → 63 kg)', () => {
  const [one, two] = [
    { affected: 3300, other: 3000 },
    { affected: 3150, other: 3060 },
  ];

  it('has 70 % and 50 % of the excess gone by the two formulas', () => {
    const gone = excessReduction(one, two);
    if (isNoAnswer(gone)) throw new Error(gone.noAnswer);
    expect(gone.sameDay).toBeCloseTo(0.7, 12);
    expect(gone.fixed).toBeCloseTo(0.5, 12);
  });

  it('has RVC −6.417112 % and weight-adjusted −9.090909 %', () => {
    expect(100 * relativeVolumeChange(one, two)).toBeCloseTo(-6.417112, 6);
    expect(100 * weightAdjustedChange(3150 / 3300, 63 / 60)).toBeCloseTo(-9.090909, 6);
  });

  it.each([3000, 3100])('has no reduction where the first excess is nought or less: U %d', (other) => {
    expect(excessReduction({ affected: 3000, other }, two)).toEqual({ noAnswer: expect.stringContaining('not larger') });
  });
});

describe('the error of excess volume', () => {
  /** Volume in mm³ by the frustum formula, written out again here. */
  const volume = (girthsMm: readonly number[]) =>
    girthsMm.slice(1).reduce((sum, c, at) => {
      const before = girthsMm[at] as number;
      return sum + (40 * (before ** 2 + before * c + c ** 2)) / (12 * Math.PI);
    }, 0);

  it('is that of finite differences: every girth and both zeros moved, tension pulling both arms alike', () => {
    const [a, u] = [lineOf(ARM.a1), lineOf(ARM.u1)];
    const slopes = [a, u].flatMap(({ girthsMm }) =>
      girthsMm.map((_, rung) => {
        const moved = (by: number) => volume(girthsMm.map((girth, at) => (at === rung ? girth + by : girth)));
        return (moved(0.01) - moved(-0.01)) / 0.02;
      }),
    );
    // A ladder that slides loses the slice at its far end and gains one at the near end: area times distance.
    const area = (girthMm: number) => girthMm ** 2 / (4 * Math.PI);
    const placed = [a, u].map(({ girthsMm }) => 5 * (area(girthsMm.at(-1) ?? 0) - area(girthsMm[0] ?? 0)));
    const pulled = (volume(a.girthsMm.map((c) => c * 1.004)) - volume(u.girthsMm.map((c) => c * 1.004)) - first.mm3) / first.mm3;
    const expected = Math.hypot(...slopes.map((slope) => 3 * slope), ...placed, pulled * first.mm3);
    expect(first.sdMm3 / expected).toBeCloseTo(1, 4);
  });

  it('is larger where two people taped: tension does not fall out', () => {
    const byTwo = excessOf(ARM.a1, ARM.u1, { affected: 0.01, other: 0.01, common: false });
    expect(byTwo.sdMm3).toBeCloseTo(
      Math.sqrt(first.sdMm3 ** 2 - (0.008 * first.mm3) ** 2 + (0.02 * byTwo.volumes.affected) ** 2 + (0.02 * byTwo.volumes.other) ** 2),
      3,
    );
    expect(byTwo.shareSd).toBeGreaterThan(first.shareSd);
  });

  it('refuses a stretch that one arm does not tape', () => {
    expect(excessVolume(lineOf(ARM.a1), lineOf(ARM.u1.slice(0, 5)), WHOLE, DEFAULT_TAPE_ERROR, TENSION)).toHaveProperty('noAnswer');
  });

  it('pulls the difference only by the tension that both share: twice its SD times A − U, added in quadrature', () => {
    const none = excessOf(ARM.a1, ARM.u1, { affected: 0, other: 0, common: true });
    const shared = excessOf(ARM.a1, ARM.u1, { affected: 0.03, other: 0.03, common: true });
    expect(Math.sqrt(shared.sdMm3 ** 2 - none.sdMm3 ** 2) / 1000).toBeCloseTo(0.06 * 578.8465, 3);
    expect(shared.shareSd).toBeCloseTo(none.shareSd, 12);
  });
});
