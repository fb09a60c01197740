import { describe, expect, it } from 'vitest';
import type { CourseTerms, VisitLook } from '@/lib/course-model/course';
import { followCourse } from '@/lib/course-model/follow-course';
import { readChange, smallestChangeSaid } from '@/lib/course-model/read-change';

/**
 * Check values computed outside the project with double-precision matrices (general inverse, restricted likelihood), whole-limb steps only:
 * ℓ(S) = −½ (r'S⁻¹r + ln|S| + ln|L'S⁻¹L|), ln BF(j) = ℓ(S + 0.05² hh') − ℓ(S), P = 1 / (1 + 4 / mean BF). Nine digits as they were given.
 */
const TERMS: CourseTerms = {
  parts: [1],
  habits: [],
  lnWeightVariance: 0,
  lnHeightVariance: 0,
  commonDrift: 0,
  ownDrift: 0,
  partDrift: 0,
  stepVariance: 0.05 ** 2,
  stepOdds: 1 / 4,
  mostSteps: 1,
  kept: 40,
};

type Case = { readonly own: readonly number[]; readonly other?: readonly number[]; readonly day?: (index: number) => number };

function courseOf({ own, other, day = () => 0 }: Case, error: number, terms: Partial<CourseTerms>) {
  const visits = own.map((y, index): VisitLook => {
    const limbs = [{ limb: 0, girths: [y], covariance: [[error ** 2]] }];
    if (other) limbs.push({ limb: 1, girths: [other[index] as number], covariance: [[error ** 2]] });
    const years = index / 4;
    return { years, dayVariance: day(index), habits: [], lnWeight: 0, lnHeight: 0, mayStep: index > 0, limbs };
  });
  return followCourse(visits, { ...TERMS, ...(other ? { parts: [1, 1] } : {}), ...terms });
}

function figuresOf(course: ReturnType<typeof courseOf>) {
  const last = course[course.length - 1] as (typeof course)[0];
  const [none, ...steps] = [...last.histories].sort((one, next) => (one.visits[0] ?? 0) - (next.visits[0] ?? 0));
  const total = steps.reduce((sum, { weight }) => sum + weight, 0);
  const said = readChange(last, 0, 0.5);
  // Weight of a step over that of none is BF · (1/4) / places.
  const bayes = steps.map(({ weight }) => Math.log((weight / (none?.weight ?? 0)) * 4 * steps.length));
  return {
    q: last.strain,
    bayes,
    weights: steps.map(({ weight }) => weight / total),
    sizes: steps.map(({ sizes }) => sizes[0]),
    sds: steps.map(({ covariance }) => Math.sqrt(covariance[0] as number)),
    probability: said?.probability,
    size: said?.size,
    sd: said?.sd,
  };
}

const near = (found: readonly (number | undefined)[], expected: readonly number[]) => {
  for (const [index, value] of expected.entries()) expect(found[index]).toBeCloseTo(value, 9);
};

describe('the joint model on the reference cases', () => {
  it('1: one limb, two visits', () => {
    const found = figuresOf(courseOf({ own: [0, 0.04] }, 0.012, {}));
    near(
      [found.q, found.bayes[0], found.size, found.sd, found.probability],
      [5.555555556, 1.355774086, 0.035868006, 0.016070148, 0.492370523],
    );
    expect(found.size).toBeCloseTo((0.04 * 0.05 ** 2) / (0.05 ** 2 + 2 * 0.012 ** 2), 12);
  });

  it('2: one limb, five visits, drift', () => {
    const found = figuresOf(courseOf({ own: [0, 0.004, -0.006, 0.041, 0.037] }, 0.012, { ownDrift: 0.0078 ** 2 }));
    near([found.q, found.probability, found.size, found.sd], [11.377952418, 0.736104226, 0.036951202, 0.012550451]);
    near(found.bayes, [-0.726157237, -0.214009208, 3.745266723, 0.018427238]);
    near(found.weights, [0.010839445, 0.018089648, 0.948247735, 0.022823171]);
    near(found.sizes, [0.014622191, 0.018473903, 0.037911113, 0.022319043]);
    near(found.sds, [0.013817844, 0.011764567, 0.011764567, 0.013817844]);
  });

  it('2, looking back: by a visit the share of the steps up to it, the printed weights summed', () => {
    const last = courseOf({ own: [0, 0.004, -0.006, 0.041, 0.037] }, 0.012, { ownDrift: 0.0078 ** 2 })[4] as never;
    const upTo = (visit: number) => readChange(last, 0, 0.5, visit)?.probability;
    const weights = [0.010839445, 0.018089648, 0.948247735, 0.022823171];
    const sums = weights.map((_, index) => 0.736104226 * weights.slice(0, index + 1).reduce((sum, weight) => sum + weight, 0));
    // Sums of products of figures printed to nine digits hold to eight.
    for (const [index, sum] of sums.entries()) expect(upTo(index + 1)).toBeCloseTo(sum, 8);
    expect(readChange(last, 0, 0.5, 2)).toMatchObject({ sinceVisit: 2, part: 'whole' });
    expect(readChange(last, 2, 0.5, 2)).toBeUndefined();
  });

  const day = (index: number) => (index === 2 ? 0.0104 ** 2 : 0.006 ** 2);
  const drifts = { commonDrift: 0.006 ** 2, ownDrift: 0.005 ** 2 };
  const own = [0, 0.003, -0.012, 0.033, 0.03];

  it('3: two limbs on the same days, another measurer at the third', () => {
    const found = figuresOf(courseOf({ own, other: [0, -0.002, -0.018, -0.004, -0.007], day }, 0.009, drifts));
    near([found.q, found.probability, found.size, found.sd], [11.403646909, 0.63619102, 0.030705207, 0.01109076]);
    near(found.bayes, [-0.706476434, 0.03089576, 3.241246233, -0.117879419]);
    near(found.weights, [0.017633847, 0.036862413, 0.913737083, 0.031766657]);
    near([found.sizes[2], found.sds[2]], [0.031906402, 0.010272291]);
  });

  it('4: both limbs went up: the day, not the limb', () => {
    const found = figuresOf(courseOf({ own, other: [0, -0.002, -0.018, 0.028, 0.025], day }, 0.009, drifts));
    near(found.bayes, [-1.093161151, -0.933274289, 0.226250594, -1.001951043]);
    near([found.probability, found.size, found.sd], [0.128040282, 0.015514798, 0.011655013]);
  });
});

describe('closed forms', () => {
  it('two visits without a prior on size: the pair’s own difference and √2 σ', () => {
    const said = readChange(courseOf({ own: [0, 0.04] }, 0.012, { stepVariance: 1e2 })[1] as never, 0, 0.5);
    // Without a prior on size the estimate is the difference; a prior of variance 100 takes the share 2 · 0.012² / 100 off it.
    expect(said?.size).toBeCloseTo(0.04 / (1 + (2 * 0.012 ** 2) / 100), 9);
    expect(said?.sd).toBeCloseTo(0.012 * Math.SQRT2, 7);
  });

  it('a step at visit n + 1 after n with independent errors: SD σ √(1 + 1/n), Gauss–Markov', () => {
    for (const n of [1, 2, 3, 5, 9, 20]) {
      const course = courseOf({ own: Array.from({ length: n + 1 }, () => 0) }, 0.012, {});
      expect(Math.sqrt(course[n]?.newStepVariance ?? 0)).toBeCloseTo(0.012 * Math.sqrt(1 + 1 / n), 9);
    }
  });

  it('the smallest change said is the one whose probability is the limit', () => {
    const smallest = smallestChangeSaid(courseOf({ own: [0, 0] }, 0.012, {})[1] as never, 0.05 ** 2, 1 / 4, 0.5) as number;
    expect(smallest).toBeCloseTo(0.0406, 3);
    const said = readChange(courseOf({ own: [0, smallest] }, 0.012, {})[1] as never, 0, 0.5);
    expect(said?.probability).toBeCloseTo(0.5, 9);
  });
});
