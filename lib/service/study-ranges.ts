import { chiSquarePoint, fPoint } from '../statistics/tail-points';
import type { MeasurerStudy } from './measurer-study';

/** The 95 % range of a standard deviation. */
export type SdRange = { readonly low: number; readonly high: number };

/** Ranges of what a study found, as standard deviations; what was pooled away has none. */
export type StudyRanges = {
  readonly within: SdRange;
  readonly between: SdRange;
  readonly measurers: SdRange;
  readonly together: SdRange | null;
};

const [LOW, HIGH] = [0.025, 0.975];

/**
 * 95 % ranges of the error within and between measurers and of its two parts, as standard deviations.
 *
 * Within: df·MSₑ/χ². Between: Satterthwaite’s, of MSₑ(1 − 1/m) + MSₚᵣ(1 − 1/p)/m + MSᵣ/(pm), ν = V²/Σ(term²/df); without its last two parts where measurers
 * come out below zero. Parts: Williams and Tukey’s, df₁(MS₁ − F·MS₂)/(k χ²), held above 0. Normal errors are assumed.
 * Shape: a study. Source: Searle, Casella, McCulloch 1992, Variance Components, 3.5 (from memory); figures of the test by SciPy 1.17.
 * Example: five limbs, three measurers, two repeats of the tests: within 8.69 (6.75 to 12.18), between 19.0 (10.8 to 70.6): few measurers say little.
 */
export function studyRanges({ layout, components }: MeasurerStudy): StudyRanges {
  const { limbs: p, measurers: r, repeats: m, squares, free } = layout;
  const isPooled = squares.together === squares.repeats;
  const ofMeasurers =
    components.measurers > 0
      ? [
          [squares.together * ((1 - 1 / p) / m), free.together],
          [squares.measurers / (p * m), free.measurers],
        ]
      : [[squares.together / m, free.together]];
  const terms = isPooled
    ? [
        [squares.repeats * (components.measurers > 0 ? 1 - 1 / (p * m) : 1), free.repeats],
        ...(components.measurers > 0 ? [[squares.measurers / (p * m), free.measurers]] : []),
      ]
    : [[squares.repeats * (1 - 1 / m), free.repeats], ...ofMeasurers];
  const whole = terms.reduce((sum, [term = 0]) => sum + term, 0);
  const freedom = whole ** 2 / terms.reduce((sum, [term = 0, df = 1]) => sum + term ** 2 / df, 0);
  return {
    within: sdRange(squares.repeats, free.repeats),
    between: whole > 0 ? sdRange(whole, freedom) : { low: 0, high: 0 },
    measurers: partRange([squares.measurers, r - 1], [squares.together, free.together], p * m),
    together: isPooled ? null : partRange([squares.together, free.together], [squares.repeats, free.repeats], m),
  };
}

/** The 95 % range of a standard deviation whose square was estimated with so many degrees of freedom: √(df·s²/χ²). */
export function sdRange(variance: number, df: number): SdRange {
  return { low: Math.sqrt((df * variance) / chiSquarePoint(HIGH, df)), high: Math.sqrt((df * variance) / chiSquarePoint(LOW, df)) };
}

type Square = readonly [square: number, df: number];

function partRange([square, df]: Square, [below, belowDf]: Square, times: number): SdRange {
  const end = (share: number) => {
    const left = (df * (square - fPoint(share, df, belowDf) * below)) / (times * chiSquarePoint(share, df));
    return Math.sqrt(Math.max(0, left));
  };
  return { low: end(HIGH), high: end(LOW) };
}
