import type { Alignment } from './align-ladders';

/**
 * Covariance of where two places of the earlier ruler come to lie on the later one, mm²; of one place with itself, its variance.
 *
 * Between knots the places hang on both, by their share; beyond an outer knot on that knot and on the expected ratio, whose error grows
 * with the distance. Shape: an alignment and two places of the earlier ruler, mm.
 * Source: linear error propagation. Example: one knot with a variance of 50 mm² and a ratio sure to 1 %: 300 mm away the variance is 59.
 */
export function placeCovariance(alignment: Alignment, oneMm: number, otherMm: number): number {
  const one = hold(alignment, oneMm);
  const other = one.placeMm === otherMm ? one : hold(alignment, otherMm);
  const at = (row: number, column: number): number => alignment.covariance[row]?.[column] ?? 0;
  const knots =
    (1 - one.share) * ((1 - other.share) * at(one.lower, other.lower) + other.share * at(one.lower, other.upper)) +
    one.share * ((1 - other.share) * at(one.upper, other.lower) + other.share * at(one.upper, other.upper));
  return knots + alignment.ratioSd * alignment.ratioSd * one.beyondMm * other.beyondMm;
}

/** What a place hangs on: two knots by shares, or an outer knot and the signed distance beyond it. */
type Hold = { readonly placeMm: number; readonly lower: number; readonly upper: number; readonly share: number; readonly beyondMm: number };

function hold({ earlierMm }: Alignment, placeMm: number): Hold {
  const last = earlierMm.length - 1;
  const first = earlierMm[0] as number;
  const end = earlierMm[last] as number;
  if (placeMm <= first) return { placeMm, lower: 0, upper: 0, share: 0, beyondMm: placeMm - first };
  if (placeMm >= end) return { placeMm, lower: last, upper: last, share: 0, beyondMm: placeMm - end };
  let lower = 0;
  while ((earlierMm[lower + 1] as number) < placeMm) lower++;
  const from = earlierMm[lower] as number;
  return { placeMm, lower, upper: lower + 1, share: (placeMm - from) / ((earlierMm[lower + 1] as number) - from), beyondMm: 0 };
}
