import { rungBelow } from '../ladder/girth-at';

/** A shape-preserving cubic through rungs: places, girths and slopes. */
export type MonotoneCubic = {
  readonly placesMm: readonly number[];
  readonly girthsMm: readonly number[];
  readonly slopes: readonly number[];
};

/**
 * The cubic through the rungs that never swells between two of them beyond both (monotone piecewise cubic Hermite).
 *
 * Interior slopes are the Fritsch–Butland weighted harmonic mean of the neighbouring slopes, 0 at a peak or dip; end slopes are
 * one-sided. Shape: places rising strictly and girths, mm, two rungs or more.
 * Source: Fritsch and Butland 1984, A method for constructing local monotone piecewise cubic interpolants, SIAM J Sci Stat Comput 5:300.
 * Example: a straight line stays the straight line.
 */
export function monotoneCubic(placesMm: readonly number[], girthsMm: readonly number[]): MonotoneCubic {
  const last = placesMm.length - 1;
  const slopes = new Array<number>(placesMm.length);
  for (let rung = 1; rung < last; rung++) {
    const gapBelow = (placesMm[rung] as number) - (placesMm[rung - 1] as number);
    const gapAbove = (placesMm[rung + 1] as number) - (placesMm[rung] as number);
    const below = ((girthsMm[rung] as number) - (girthsMm[rung - 1] as number)) / gapBelow;
    const above = ((girthsMm[rung + 1] as number) - (girthsMm[rung] as number)) / gapAbove;
    const weightBelow = 2 * gapAbove + gapBelow;
    const weightAbove = gapAbove + 2 * gapBelow;
    slopes[rung] = below * above > 0 ? (weightBelow + weightAbove) / (weightBelow / below + weightAbove / above) : 0;
  }
  slopes[0] = endSlope(placesMm, girthsMm, 0, 1);
  slopes[last] = endSlope(placesMm, girthsMm, last - 1, last);
  return { placesMm, girthsMm, slopes };
}

function endSlope(placesMm: readonly number[], girthsMm: readonly number[], lower: number, upper: number): number {
  return ((girthsMm[upper] as number) - (girthsMm[lower] as number)) / ((placesMm[upper] as number) - (placesMm[lower] as number));
}

/** Where `cubicAt` puts its answer, so that inner loops allocate nothing. */
export type CubicPoint = { girthMm: number; slope: number };

/**
 * Girth and slope (mm per mm) of the cubic at a place; outside the rungs it goes on along the end slope.
 *
 * The continuation is only for fitting a shift; nothing measured is ever read outside the rungs.
 * Example: on the line through (0, 200) and (40, 240), place 10 has girth 210 and slope 1.
 */
export function cubicAt(cubic: MonotoneCubic, placeMm: number, into: CubicPoint): CubicPoint {
  const { placesMm, girthsMm, slopes } = cubic;
  const last = placesMm.length - 1;
  const below = rungBelow(placesMm, placeMm);
  if (below < 0 || below >= last) {
    const end = below < 0 ? 0 : last;
    into.slope = slopes[end] as number;
    into.girthMm = (girthsMm[end] as number) + into.slope * (placeMm - (placesMm[end] as number));
    return into;
  }
  const start = placesMm[below] as number;
  const gap = (placesMm[below + 1] as number) - start;
  const share = (placeMm - start) / gap;
  const lower = girthsMm[below] as number;
  const upper = girthsMm[below + 1] as number;
  const lowerSlope = (slopes[below] as number) * gap;
  const upperSlope = (slopes[below + 1] as number) * gap;
  const square = share * share;
  const curve = 2 * (lower - upper) + lowerSlope + upperSlope;
  const bend = 3 * (upper - lower) - 2 * lowerSlope - upperSlope;
  into.girthMm = lower + lowerSlope * share + bend * square + curve * square * share;
  into.slope = (lowerSlope + 2 * bend * share + 3 * curve * square) / gap;
  return into;
}
