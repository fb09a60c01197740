import { lengthFactor } from '../alignment/place-landmarks';
import type { LimbKind } from '../ladder/limb';
import type { BodyAt } from './body-at';
import { bodyModelSd, girthFactor } from './expected-girth';

/** What body size says of a limb between two days, and how far to trust it. */
export type BodyChange = {
  /** Weight and height, later / earlier; 1 where the figure is missing (then `missing` names it). */
  readonly weightRatio: number;
  readonly heightRatio: number;
  /** SD of the expected girth ratio; undefined when the body explains nothing at all. */
  readonly modelSd: number | undefined;
  readonly expectedLength: { readonly ratio: number; readonly sd: number };
  readonly missing: readonly ('height' | 'weight')[];
};

/** With no weight an adult's girth may have followed weight unseen: about 4 % of weight × exponent 0.45. Clinic default. */
const ADULT_UNWEIGHED_SD = 0.02;
/** A child's weight goes with height to about this power between two ages (from memory); SD of the girth that follows. Clinic default. */
const WEIGHT_ON_HEIGHT = 2.6;
const CHILD_UNWEIGHED_SD = 0.025;
/** A child whose height is unknown may have grown by anything usual. Clinic default. */
const UNKNOWN_STRETCH_SD = 0.06;
const ADULT_STRETCH = { ratio: 1, sd: 0.002 };

/**
 * Expected change of a limb from weight and height on two days.
 *
 * Adults: weight only; without it the expectation is no change with a wide SD. Children: height and weight; without weight it is
 * guessed from height with a wide SD; without height nothing is expected of girth, and length is left to the landmarks.
 * Shape: body figures of both days, days apart; ratios without unit.
 * Source: `expected-girth`, `girth-exponents`; engine section 5.
 * Example: an adult from 70 to 77 kg has weight ratio 1.1, so a calf is expected at 1.1^0.42 = 1.041.
 */
export function bodyChange(earlier: BodyAt, later: BodyAt, limb: LimbKind, growing: boolean, daysApart: number): BodyChange {
  const weight = ratioOf(earlier.weightKg?.value, later.weightKg?.value);
  const height = ratioOf(earlier.heightMm?.value, later.heightMm?.value);
  const modelSd = bodyModelSd(daysApart);
  if (!growing) {
    const sd = weight === undefined ? Math.max(modelSd, ADULT_UNWEIGHED_SD) : modelSd;
    const missing = weight === undefined ? (['weight'] as const) : [];
    return { weightRatio: weight ?? 1, heightRatio: 1, modelSd: sd, expectedLength: ADULT_STRETCH, missing };
  }
  if (height === undefined) {
    const missing = weight === undefined ? (['height', 'weight'] as const) : (['height'] as const);
    return { weightRatio: 1, heightRatio: 1, modelSd: undefined, expectedLength: { ratio: 1, sd: UNKNOWN_STRETCH_SD }, missing };
  }
  const stretch = { ratio: lengthFactor(earlier.heightMm?.value, later.heightMm?.value, limb, true), sd: modelSd };
  if (weight === undefined) {
    const sd = Math.max(modelSd, CHILD_UNWEIGHED_SD);
    return { weightRatio: height ** WEIGHT_ON_HEIGHT, heightRatio: height, modelSd: sd, expectedLength: stretch, missing: ['weight'] };
  }
  return { weightRatio: weight, heightRatio: height, modelSd, expectedLength: stretch, missing: [] };
}

/** Expected girth ratio at an anatomical place. Example: weight and height as they were: 1. */
export function expectedGirthAt(body: BodyChange, limb: LimbKind, growing: boolean, place: number): number {
  return girthFactor(limb, growing, place, body.weightRatio, body.heightRatio);
}

function ratioOf(earlier: number | undefined, later: number | undefined): number | undefined {
  return earlier !== undefined && later !== undefined ? later / earlier : undefined;
}
