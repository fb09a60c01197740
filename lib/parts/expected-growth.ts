import type { Measure } from './measure';
import { GROWTH_BANDS } from './measure';

/** What growth alone does to a measure between two days, as a ratio, and how far people differ from it (SD of the logarithm). */
export type ExpectedGrowth = { readonly ratio: number; readonly sd: number; readonly known: boolean };

const GROWN_UP = 17;
/** Rates of the measures that have figures lie between 0 and 7 % a year: what is said of one that has none. Source: Snyder 1977. */
const UNKNOWN = { rate: 0.03, sd: 0.025 } as const;
/** Under two years no figure is at hand; the first two years double a foot. Clinic default. */
const INFANT = { rate: 0.15, sd: 0.1 } as const;
/** A child grows by half as much more or less than the mean of its age. Clinic default. */
const OWN_PACE = 0.5;

/**
 * How a measure should have grown between two ages: its size then, and what each year of age adds (mm), summed over the bands between.
 *
 * Nothing grows beyond 17 years. Where the catalogue has no figure, 3 % a year (SD 2.5 %) is allowed for and said to be unknown.
 * Shape: the measure, sex (X: the mean of both), two ages in years, the earlier length in mm. Source: Snyder 1977, cross-sectional.
 * Example: a boy's foot of 166 mm at 4.0 years: 11 mm a year to five, so 171.5 mm at 4.5 years, ratio 1.033.
 */
export function expectedGrowth(
  measure: Measure,
  sex: 'F' | 'M' | 'X',
  fromYears: number,
  toYears: number,
  lengthMm: number,
): ExpectedGrowth {
  const [from, to] = [Math.min(fromYears, GROWN_UP), Math.min(toYears, GROWN_UP)];
  if (to <= from) return { ratio: 1, sd: 0, known: true };
  if (from < GROWTH_BANDS.from) return { ratio: Math.exp(INFANT.rate * (to - from)), sd: INFANT.sd * (to - from), known: false };
  const rates = measure.yearlyGrowthMm;
  if (!rates) return { ratio: Math.exp(UNKNOWN.rate * (to - from)), sd: UNKNOWN.sd * (to - from), known: false };
  const grown = sex === 'X' ? (grownBetween(rates.F, from, to) + grownBetween(rates.M, from, to)) / 2 : grownBetween(rates[sex], from, to);
  return { ratio: (lengthMm + grown) / lengthMm, sd: (OWN_PACE * grown) / lengthMm, known: true };
}

function grownBetween(rates: readonly number[], from: number, to: number): number {
  return rates.reduce((sum, rate, band) => {
    const start = GROWTH_BANDS.from + band * GROWTH_BANDS.width;
    return sum + rate * Math.max(0, Math.min(to, start + GROWTH_BANDS.width) - Math.max(from, start));
  }, 0);
}
