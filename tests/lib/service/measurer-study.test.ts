import { describe, expect, it } from 'vitest';
import { agreementOf, measurerStudy, technicalError } from '@/lib/service/measurer-study';

/** Five limbs, measurers A, B and C, two repeats each, ml: made for this check. Its figures were worked by an independent script. */
const LIMBS = [
  [
    [2010, 2022],
    [2041, 2030],
    [2003, 2016],
  ],
  [
    [1765, 1752],
    [1790, 1781],
    [1748, 1760],
  ],
  [
    [2480, 2499],
    [2521, 2506],
    [2470, 2491],
  ],
  [
    [1910, 1921],
    [1925, 1943],
    [1899, 1908],
  ],
  [
    [2205, 2190],
    [2232, 2241],
    [2188, 2201],
  ],
];
const pairsOf = (rater: number) => LIMBS.map((limb) => [limb[rater]?.[0], limb[rater]?.[1]] as [number, number]);
const at = (value: number | undefined, digits: number) => Number(value?.toFixed(digits));

describe('a study of measurers', () => {
  it('parts the spread as the worked example does', () => {
    const study = measurerStudy(LIMBS);
    expect(at(study?.mean, 1)).toBe(2081.6);
    expect(at(study?.components.limbs, 4)).toBe(79256.4062);
    expect(at(study?.components.measurers, 4)).toBe(286.9754);
    expect(study?.components.together).toBe(0);
    expect(at(study?.components.repeats, 4)).toBe(75.4464);
    expect(at(study?.within.sem, 3)).toBe(8.686);
    expect(at(study?.between.sem, 3)).toBe(19.037);
    expect(at(study?.within.smallestDifference, 2)).toBe(24.08);
    expect(at(study?.between.smallestDifference, 2)).toBe(52.77);
    expect(at(study?.agreement, 5)).toBe(0.99545);
  });

  it('finds components that were planted, where measurer and limb go together', () => {
    const [limb, measurer, both, repeat] = [
      [-30, -10, 10, 30],
      [-4, 0, 4],
      [
        [3, -6, 3],
        [-3, 6, -3],
        [-3, 6, -3],
        [3, -6, 3],
      ],
      [-1, 1],
    ];
    const made = limb.map((l, i) => measurer.map((r, j) => repeat.map((e) => 2000 + l + r + (both[i]?.[j] ?? 0) + e)));
    const study = measurerStudy(made);
    const msTogether = (2 * 2 * 2 * (9 + 36 + 9)) / 6;
    expect(study?.components.repeats).toBeCloseTo(2, 9);
    expect(study?.components.together).toBeCloseTo((msTogether - 2) / 2, 9);
    expect(study?.components.measurers).toBe(Math.max(0, ((4 * 2 * 32) / 2 - msTogether) / 8));
  });

  it('refuses a study with a gap, one measurer or no repeat', () => {
    expect(
      measurerStudy([
        [[1, 2], [3]],
        [
          [1, 2],
          [3, 4],
        ],
      ]),
    ).toBeUndefined();
    expect(measurerStudy([[[1, 2]], [[3, 4]]])).toBeUndefined();
    expect(
      measurerStudy([
        [[1], [2]],
        [[3], [4]],
      ]),
    ).toBeUndefined();
  });

  it('technical error and limits of agreement come to the printed digits', () => {
    expect(at(technicalError(pairsOf(0)), 4)).toBe(10.0995);
    expect(at(technicalError([0, 1, 2].flatMap(pairsOf)), 4)).toBe(9.757);
    const first = LIMBS.map(([a, b]) => [a?.[0], b?.[0]] as [number, number]);
    const agreement = agreementOf(first);
    expect(at(agreement?.bias, 1)).toBe(27.8);
    expect(at(agreement?.sd, 4)).toBe(9.4446);
    expect([at(agreement?.low, 3), at(agreement?.high, 3)]).toEqual([9.289, 46.311]);
    expect([at(agreement?.biasError, 3), at(agreement?.limitError, 3)]).toEqual([4.224, 7.789]);
    expect(technicalError([])).toBeUndefined();
    expect(agreementOf(first.slice(0, 2))).toBeUndefined();
  });
});
