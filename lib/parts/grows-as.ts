import { measureOf } from './catalogue';
import { type ExpectedGrowth, expectedGrowth } from './expected-growth';
import { CHILD_AGES, type Measure } from './measure';

/**
 * Which measure with a figure by age stands for one that has none: parts of one hand, and of one foot, grow in proportion. Clinic default; the
 * share of the finger in the hand and of the ball in the foot hardly moves with age (Snyder 1977: middle finger / hand .423 to .436).
 */
const GROWS_AS: readonly (readonly [RegExp, string])[] = [
  [/^(thumb|index-finger|ring-finger|little-finger)-length$/, 'middle-finger-length'],
  [/^(palm-length|web-depth-\d)$/, 'hand-length'],
  [/^(hand-girth|hand-girth-with-thumb|thumb-web-girth|wrist-girth|.*(thumb|finger)-(base|joint|tip)-girth)$/, 'hand-breadth'],
  [/^(ball-length|heel-to-toe-base-(inner|outer)|.*-toe-length)$/, 'foot-length'],
  [/^(ball-girth|instep-girth|heel-ankle-girth|toe-base-girth|ankle-figure-of-eight|.*-toe-girth)$/, 'foot-length'],
];

/**
 * How a measure should grow between two ages for an outlook: by its own figure, else in proportion to the measure that stands for it.
 *
 * Growth of the other measure is taken at that one's usual size for the age, so that the ratio is what counts; 20 % more is allowed for the stand-in.
 * Shape as `expectedGrowth`; `known` is false where nothing stands for it. Example: a girl's ring finger from 5 to 6 years: the middle
 * finger's 3.3 mm of 51.4 mm, so 6.4 % longer.
 */
export function outlookGrowth(
  measure: Measure,
  sex: 'F' | 'M' | 'X',
  fromYears: number,
  toYears: number,
  lengthMm: number,
): ExpectedGrowth {
  const stand = measure.yearlyGrowthMm ? undefined : measureOf(GROWS_AS.find(([ids]) => ids.test(measure.id))?.[1] ?? '');
  const usual = stand && usualAt(stand, fromYears);
  if (!stand || !usual) return expectedGrowth(measure, sex, fromYears, toYears, lengthMm);
  const growth = expectedGrowth(stand, sex, fromYears, toYears, usual);
  return { ...growth, sd: growth.sd * 1.2 };
}

/** Middle of the age bands, straight between them; nothing is said beyond them. */
function usualAt({ childrenMm }: Measure, years: number): number | undefined {
  const middles = childrenMm?.map(([, middle]) => middle);
  if (!middles) return undefined;
  const after = CHILD_AGES.findIndex((age) => age > years);
  if (after <= 0) return middles[after === 0 ? 0 : middles.length - 1];
  const [from, to] = [CHILD_AGES[after - 1], CHILD_AGES[after]] as [number, number];
  const [low, high] = [middles[after - 1], middles[after]] as [number, number];
  return low + ((high - low) * (years - from)) / (to - from);
}
