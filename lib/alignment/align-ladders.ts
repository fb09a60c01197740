import { LIMBS, type LimbKind } from '../ladder/limb';
import { invertSymmetric } from '../statistics/invert-symmetric';
import type { PlacedLandmark, PlacedLine } from './place-landmarks';

/** What is expected of segment length between two visits: ratio later / earlier, and its SD. */
export type ExpectedStretch = { readonly ratio: number; readonly sd: number };

/**
 * Where the anatomy of an earlier ladder lies on the ruler of a later one: a line through knots, one at each shared landmark.
 *
 * `covariance` is that of the knots' later places, mm²; beyond the outer knots the line goes on at the expected ratio, with its SD.
 */
export type Alignment = {
  readonly earlierMm: readonly number[];
  readonly laterMm: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly ratio: number;
  readonly ratioSd: number;
  /** Where the earlier anatomy puts the later ladder's zero landmark on its own ruler, mm; 0 when its zero is not a shared landmark. */
  readonly zeroStepMm: number;
  readonly inferred: boolean;
  /** How badly the landmarks agree with each other and with the expected stretch: the sum that is minimised, about χ² with K − 1 degrees. */
  readonly strain: number;
};

/**
 * The most likely place of each shared landmark on the later ruler, from what was taped and what is expected of growth.
 *
 * Minimises Σ (zₖ − yₖ)² / vₖ + Σ (zₖ₊₁ − zₖ − q dₖ)² / (σ_q dₖ)², yₖ the taped places, vₖ the placement variances of both
 * visits, q and σ_q the expected stretch. Zero is a landmark like the others; so is a zero in words that both ladders share. With
 * σ_q → 0 and q = 1 (adults) every place moves by the mean landmark difference, SE σ√(2/K); for a child taped and expected
 * distances weigh by inverse variance.
 * Shape: two placed lines of one limb, mm. Undefined when no landmark is shared or landmarks do not lie in order.
 * Source: Gauss–Markov estimate; landmark registration after Ramsay and Silverman, Functional Data Analysis.
 * Example: landmarks 0, 280, 590 and 0, 290, 600 mm in an adult: every place moves up by 6.7 mm, SE 4.1 mm at σ = 5 mm.
 */
export function alignLadders(earlier: PlacedLine, later: PlacedLine, limb: LimbKind, stretch: ExpectedStretch): Alignment | undefined {
  const knots = sharedKnots(earlier, later, limb);
  if (knots.length === 0) return undefined;
  const earlierMm = knots.map((knot) => knot.earlier.placeMm);
  const tapedMm = knots.map((knot) => knot.later.placeMm);
  if (!rises(earlierMm) || !rises(tapedMm)) return undefined;
  const size = knots.length;
  const information = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const target = new Array<number>(size).fill(0);
  knots.forEach((knot, index) => {
    const weight = 1 / (knot.earlier.sdMm ** 2 + knot.later.sdMm ** 2);
    add(information, index, index, weight);
    target[index] = (target[index] as number) + weight * knot.later.placeMm;
  });
  for (let knot = 0; knot + 1 < size; knot++) {
    const distance = (earlierMm[knot + 1] as number) - (earlierMm[knot] as number);
    const weight = 1 / (stretch.sd * distance) ** 2;
    add(information, knot, knot, weight);
    add(information, knot + 1, knot + 1, weight);
    add(information, knot, knot + 1, -weight);
    add(information, knot + 1, knot, -weight);
    target[knot] = (target[knot] as number) - weight * stretch.ratio * distance;
    target[knot + 1] = (target[knot + 1] as number) + weight * stretch.ratio * distance;
  }
  const covariance = invertSymmetric(information);
  if (!covariance) return undefined;
  const laterMm = covariance.map((row) => row.reduce((sum, value, column) => sum + value * (target[column] as number), 0));
  if (!rises(laterMm)) return undefined;
  const zero = knots.findIndex((knot) => knot.later.placeMm === 0 && !knot.later.inferred);
  return {
    earlierMm,
    laterMm,
    covariance,
    ratio: stretch.ratio,
    ratioSd: stretch.sd,
    zeroStepMm: laterMm[zero] ?? 0,
    inferred: knots.some(isInferred),
    strain: strainOf(knots, laterMm, stretch),
  };
}

/** The least value of the sum that `alignLadders` minimises. */
function strainOf(knots: readonly Knot[], laterMm: readonly number[], stretch: ExpectedStretch): number {
  let sum = 0;
  knots.forEach(({ earlier, later }, index) => {
    const place = laterMm[index] as number;
    sum += (place - later.placeMm) ** 2 / (earlier.sdMm ** 2 + later.sdMm ** 2);
    const before = knots[index - 1];
    if (!before) return;
    const distance = earlier.placeMm - before.earlier.placeMm;
    sum += ((place - (laterMm[index - 1] as number) - stretch.ratio * distance) / (stretch.sd * distance)) ** 2;
  });
  return sum;
}

/** One mark of the limb on both rulers. */
type Knot = { readonly earlier: PlacedLandmark; readonly later: PlacedLandmark };

/** Marks taped at both visits if there are any; inferred ones only when there are none. In order along the limb. */
function sharedKnots(earlier: PlacedLine, later: PlacedLine, limb: LimbKind): Knot[] {
  const placed = LIMBS[limb].landmarks.flatMap((landmark): Knot[] => {
    const before = earlier.landmarks.get(landmark);
    const after = later.landmarks.get(landmark);
    return before && after ? [{ earlier: before, later: after }] : [];
  });
  const taped = placed.filter((knot) => !isInferred(knot));
  if (earlier.ownZero && earlier.ownZero.words === later.ownZero?.words)
    taped.push({ earlier: atZero(earlier.ownZero), later: atZero(later.ownZero) });
  return taped.length > 0 ? taped.sort((one, other) => one.earlier.placeMm - other.earlier.placeMm) : placed;
}

function atZero({ sdMm }: { readonly sdMm: number }): PlacedLandmark {
  return { placeMm: 0, sdMm, inferred: false };
}

function isInferred(knot: Knot): boolean {
  return knot.earlier.inferred || knot.later.inferred;
}

function add(matrix: number[][], row: number, column: number, value: number): void {
  const cells = matrix[row] as number[];
  cells[column] = (cells[column] as number) + value;
}

function rises(places: readonly number[]): boolean {
  return places.every((place, index) => index === 0 || place > (places[index - 1] as number));
}

/**
 * The same alignment with every later place moved along the limb by `byMm`.
 *
 * Example: knots at 0 and 300 mm moved by 10: 10 and 310.
 */
export function movedBy(alignment: Alignment, byMm: number): Alignment {
  return { ...alignment, laterMm: alignment.laterMm.map((place) => place + byMm) };
}

/** A place of the earlier ruler on the later one, mm. Example: offset 6.7 mm carries 100 to 106.7. */
export function toLater(alignment: Alignment, earlierPlaceMm: number): number {
  return alongKnots(alignment.earlierMm, alignment.laterMm, alignment.ratio, earlierPlaceMm);
}

/**
 * A place of the later ruler on the earlier one, mm. The inverse of `toLater`.
 *
 * Example: one knot, 300 mm then and 310 mm now, ratio 1: 350 mm now was 340 mm then.
 */
export function toEarlier(alignment: Alignment, laterPlaceMm: number): number {
  return alongKnots(alignment.laterMm, alignment.earlierMm, 1 / alignment.ratio, laterPlaceMm);
}

function alongKnots(from: readonly number[], to: readonly number[], ratio: number, place: number): number {
  const last = from.length - 1;
  const first = from[0] as number;
  if (place <= first || last === 0) return (to[0] as number) + (place - first) * ratio;
  if (place >= (from[last] as number)) return (to[last] as number) + (place - (from[last] as number)) * ratio;
  let knot = 0;
  while ((from[knot + 1] as number) < place) knot++;
  const start = from[knot] as number;
  const share = (place - start) / ((from[knot + 1] as number) - start);
  return (to[knot] as number) + share * ((to[knot + 1] as number) - (to[knot] as number));
}
