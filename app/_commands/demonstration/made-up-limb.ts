import type { LimbKind, Side } from '@/lib/ladder/limb';
import { type BodyShape, shapeGirthCm } from './limb-shapes';
import { seededRandom } from './seeded-random';

/** A body on one day. */
export type Body = { readonly heightCm: number; readonly weightKg: number };

/** A made-up limb: how long its segments are and how thick it is anywhere, for the body of a day. */
export type MadeUpLimb = {
  readonly middleCm: (body: Body) => number;
  readonly proximalCm: (body: Body) => number;
  readonly girthCm: (heightAboveDistalCm: number, body: Body, swelling: (place: number) => number) => number;
};

/**
 * Distance of the middle and the proximal landmark from the distal one, as a share of a grown person's height or of a child's
 * of 143 cm; a child's limb goes with height to the power 1.2 (leg) or 1.1 (arm).
 *
 * Source: Snyder 1977 (gluteal furrow, children), ANSUR II 2012 (mid-patella, axilla, wrist); the knee mark lies just below the knee.
 */
const SHARES: Readonly<Record<LimbKind, Readonly<Record<'child' | 'grown', readonly [middle: number, proximal: number]>>>> = {
  leg: { child: [0.193, 0.4155], grown: [0.195, 0.418] },
  arm: { child: [0.146, 0.268], grown: [0.148, 0.27] },
};
const CHILD_HEIGHT_CM = 143;
const CHILD_POWER: Readonly<Record<LimbKind, number>> = { leg: 1.2, arm: 1.1 };

/**
 * One person's own limb: the average shape with lasting differences of 1 or 2 % in length and along the limb.
 *
 * Shape: who (a word, for the fixed chance), limb, side, body shape, and a lasting factor of girth (a scarred limb is thinner).
 */
export function madeUpLimb(who: string, limb: LimbKind, side: Side, shape: BodyShape, lastingFactor: number): MadeUpLimb {
  const person = seededRandom(`${who} ${limb}`);
  const length = 1 + 0.015 * person.normal();
  const waves = [1, 2].map((half) => ({ half, size: (0.015 / half) * person.normal(), shift: 2 * Math.PI * person.uniform() }));
  const own = seededRandom(`${who} ${limb} ${side}`);
  const sideFactor = lastingFactor * (1 + 0.004 * own.normal());
  const at = (which: 0 | 1) => (body: Body) => {
    const share = SHARES[limb][shape === 'child' ? 'child' : 'grown'][which];
    const stretch = shape === 'child' ? (body.heightCm / CHILD_HEIGHT_CM) ** (CHILD_POWER[limb] - 1) : 1;
    return share * body.heightCm * stretch * length;
  };
  const [middleCm, proximalCm] = [at(0), at(1)];
  const girthCm: MadeUpLimb['girthCm'] = (heightCm, body, swelling) => {
    const middle = middleCm(body);
    const place = heightCm <= middle ? heightCm / middle : 1 + (heightCm - middle) / (proximalCm(body) - middle);
    const wave = waves.reduce((product, { half, size, shift }) => product * (1 + size * Math.sin(half * Math.PI * place + shift)), 1);
    return shapeGirthCm(shape, limb, place, body) * wave * sideFactor * swelling(place);
  };
  return { middleCm, proximalCm, girthCm };
}

/** Height of the foot below the ankle crease, cm. Source: lateral malleolus height, ANSUR II 2012 (adults); Snyder 1977 (children). */
export function footCm(shape: BodyShape, body: Body): number {
  return (shape === 'child' ? 0.046 : 0.042) * body.heightCm;
}
