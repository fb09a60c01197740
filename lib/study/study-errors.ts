import type { NoAnswer } from '../outcome';
import { measurerStudy } from '../service/measurer-study';
import { type SdRange, sdRange, studyRanges } from '../service/study-ranges';

/** Girths of a study, mm: limb, measurer, repeat, height. */
export type StudyGirths = readonly (readonly (readonly (readonly number[])[])[])[];

/** A spread of error with its 95 % range; `low` may be 0. */
export type SpreadFound = { readonly sd: number } & SdRange;

/** The spreads that the engine works with, as a study has them: reading and placing in mm, tension as a share. */
export type StudyErrors = {
  readonly reading: SpreadFound | NoAnswer;
  readonly tensionSame: SpreadFound | NoAnswer;
  readonly tensionOther: SpreadFound | NoAnswer;
  readonly placing: SpreadFound | NoAnswer;
};

type Fit = { readonly tension: number; readonly shift: number };
type FittedLimb = {
  readonly fits: readonly (readonly Fit[])[];
  readonly squares: number;
  readonly free: number;
  readonly noise: { readonly tension: number; readonly shift: number };
};

const WEAK = 'This study cannot tell it from none: tape more limbs, or more heights.';
/** How alike girth and slope may be along a limb (their squared cosine) before tension and placing cannot be told apart. */
const MOST_ALIKE = 0.999;

/**
 * Reading, tension and placing parted by what each does along a limb.
 *
 * Each taping less the mean profile ḡ(x) of its limb is fitted as a·ḡ + b·ḡ′(x), least squares without a constant: a is the tension of that taping (a share), b how far its zero was
 * shifted, mm; ḡ′ by central differences. What is left is reading: SD² = ΣRSS/Σ(R − 1)(h − 2), R tapings of a limb, h heights. The a's and the b's then go through the components
 * of the crossed study, and what reading alone gives a coefficient (SD²·[(XᵀX)⁻¹], mean over limbs) is taken off: tension of the same hand from the repeats, of another hand and
 * placing from all but the limbs. Ranges: χ² and Satterthwaite’s, the part of reading taken off both ends.
 * Refuses, with the reason, a spread whose range reaches zero, and a study that is not crossed or has under five heights.
 * Shape: mm, limb × measurer × repeat × height, none missing. Source: variance components as in `measurerStudy`; the parting is of this program (tested on planted spreads).
 * Example: see tests/lib/study/study-errors.test.ts, planted 2 mm, 0.006, 0.02 and 6 mm.
 */
export function studyErrors(girths: StudyGirths, heightsMm: readonly number[]): StudyErrors {
  const limbs = girths.map((limb) => fittedLimb(limb, heightsMm));
  if (heightsMm.length < 5 || limbs.length === 0) return all('Tape at five heights or more.');
  const free = limbs.reduce((sum, one) => sum + one.free, 0);
  const variance = limbs.reduce((sum, one) => sum + one.squares, 0) / free;
  const reading = { sd: Math.sqrt(variance), ...sdRange(variance, free) };
  if (limbs.some(({ noise }) => !Number.isFinite(noise.tension)))
    return { ...all('Girths rise alike everywhere on a limb: tension and placing cannot be told apart.'), reading };
  const found = (of: keyof Fit, hand: 'within' | 'between'): SpreadFound | NoAnswer => {
    const study = measurerStudy(limbs.map(({ fits }) => fits.map((repeats) => repeats.map((fit) => fit[of]))));
    if (!study) return { noAnswer: 'Two limbs, two measurers and two tapings of each are the least.' };
    const noise = (variance * limbs.reduce((sum, one) => sum + one.noise[of], 0)) / limbs.length;
    const less = (sd: number) => Math.sqrt(Math.max(0, sd ** 2 - noise));
    const range = studyRanges(study)[hand];
    const low = less(range.low);
    return low > 0 ? { sd: less(study[hand].sem), low, high: less(range.high) } : { noAnswer: WEAK };
  };
  return {
    reading,
    tensionSame: found('tension', 'within'),
    tensionOther: found('tension', 'between'),
    placing: found('shift', 'between'),
  };
}

function all(noAnswer: string): StudyErrors {
  return { reading: { noAnswer }, tensionSame: { noAnswer }, tensionOther: { noAnswer }, placing: { noAnswer } };
}

function fittedLimb(limb: StudyGirths[number], heights: readonly number[]): FittedLimb {
  const tapings = limb.flat();
  const profile = heights.map((_, at) => tapings.reduce((sum, taping) => sum + (taping[at] as number), 0) / tapings.length);
  const slope = profile.map((_, at) => {
    const [before, after] = [Math.max(0, at - 1), Math.min(profile.length - 1, at + 1)];
    return ((profile[after] as number) - (profile[before] as number)) / ((heights[after] as number) - (heights[before] as number));
  });
  const [gg, ss, gs] = [product(profile, profile), product(slope, slope), product(profile, slope)];
  const canPart = ss > 0 && gs ** 2 < MOST_ALIKE * gg * ss;
  const determinant = gg * ss - gs ** 2;
  let squares = 0;
  const fits = limb.map((repeats) =>
    repeats.map((taping) => {
      const off = taping.map((girth, at) => girth - (profile[at] as number));
      const [og, os] = [product(off, profile), product(off, slope)];
      const tension = canPart ? (ss * og - gs * os) / determinant : og / gg;
      const shift = canPart ? (gg * os - gs * og) / determinant : 0;
      squares += off.reduce((sum, one, at) => sum + (one - tension * (profile[at] as number) - shift * (slope[at] as number)) ** 2, 0);
      return { tension, shift };
    }),
  );
  const noise = canPart
    ? { tension: ss / determinant, shift: gg / determinant }
    : { tension: Number.POSITIVE_INFINITY, shift: Number.POSITIVE_INFINITY };
  return { fits, squares, free: (tapings.length - 1) * (heights.length - (canPart ? 2 : 1)), noise };
}

function product(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, at) => sum + value * (other[at] as number), 0);
}
