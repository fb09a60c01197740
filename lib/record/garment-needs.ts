import type { GarmentSpec, OwnForm } from '../garment-forms/garment-catalogue';
import { formOf, laddersOf } from '../garment-forms/own-form';
import { type LimbKind, otherSide, type Side } from '../ladder/limb';
import type { OwnMeasure, Part } from '../parts/measure';
import { measureTaken } from '../parts/own-measure';
import type { LimbSide, NamedMeasure, PartOfSide, WornPlace } from './patient-record';

/** Named measures of which any one will do: a waist by either definition, a rise in one or in two. */
type AnyOf = readonly [first: string, ...others: string[]];

/** What a form of garment is made to beside the ladder of its own limb. */
type Needs = {
  /** `both`: the other limb of the kind as well, and hands or feet of both sides. */
  readonly sides: 'own' | 'both';
  /** Limbs of another kind, both sides. */
  readonly limbsToo?: readonly LimbKind[];
  readonly measures: readonly AnyOf[];
};

const FOOT: readonly AnyOf[] = [['foot-length'], ['ball-girth'], ['heel-ankle-girth']];
const PALM: readonly AnyOf[] = [['hand-girth'], ['wrist-girth'], ['palm-length']];
const DIGITS = ['thumb', 'index-finger', 'middle-finger', 'ring-finger', 'little-finger'];
const GLOVE: readonly AnyOf[] = [
  ...PALM,
  ...DIGITS.flatMap((digit): AnyOf[] => [[`${digit}-base-girth`], [`${digit}-tip-girth`], [`${digit}-length`]]),
];
const GAUNTLET: readonly AnyOf[] = [...PALM, ['thumb-base-girth']];
const WAIST: AnyOf = ['waist-girth', 'waist-girth-navel'];
const RISE: readonly AnyOf[] = [
  ['crotch-length', 'crotch-length-front'],
  ['crotch-length', 'crotch-length-back'],
];
const PANTY: readonly AnyOf[] = [WAIST, ['hip-girth'], ...RISE];
const VEST: readonly AnyOf[] = [['chest-girth'], WAIST, ['waist-back-length'], ['armhole-girth']];
const BODY: readonly AnyOf[] = [['chest-girth'], ...PANTY, ['waist-back-length'], ['trunk-loop']];

const FORE_FOOT: readonly AnyOf[] = [['foot-length'], ['ball-girth'], ['instep-girth']];
const FACE: readonly AnyOf[] = [['head-girth'], ['chin-arc'], ['face-length']];

const own = (...measures: readonly (readonly AnyOf[])[]): Needs => ({ sides: 'own', measures: measures.flat() });
const both = (...measures: readonly (readonly AnyOf[])[]): Needs => ({ sides: 'both', measures: measures.flat() });

/** By form of garment; a form that is not here lies on its own ladder alone. Source: common practice; makers ask for more or for less. */
const NEEDS: Readonly<Record<string, Needs>> = {
  anklet: own(FOOT),
  'knee-high': own(FOOT),
  'mid-thigh': own(FOOT),
  'thigh-high': own(FOOT),
  'thigh-high-waist': own(FOOT, [WAIST, ['hip-girth']]),
  'one-leg-panty': own(FOOT, PANTY),
  'waist-high': both(FOOT, PANTY),
  'above-knee-short': both(PANTY),
  gauntlet: own(GAUNTLET),
  glove: own(GLOVE),
  'long-glove': own(GLOVE),
  'sleeve-gauntlet': own(GAUNTLET),
  'sleeve-glove': own(GLOVE),
  'arm-sleeve-shoulder': own([['armhole-girth']]),
  'vest-sleeve': own(VEST),
  'vest-sleeve-collar': own(VEST, [['neck-girth']]),
  'vest-sleeve-hood': own(VEST, [['neck-girth'], ['head-girth'], ['chin-arc'], ['face-length']]),
  'vest-two-sleeves': both(VEST),
  'bodysuit-leg': own(FOOT, BODY),
  'body-garment': both(BODY),
  'hand-glove': own(GLOVE),
  'hand-gauntlet': own(GAUNTLET),
  'foot-piece': own(FORE_FOOT),
  mask: own(FACE),
  'mask-neck': own(FACE, [['neck-girth']]),
  'chin-band': own([['head-girth'], ['chin-arc'], ['under-jaw-arc']]),
  'vest-sleeveless': own(VEST),
  'body-garment-sleeves': { ...both(BODY, [['armhole-girth']]), limbsToo: ['arm'] },
};

/** One figure that a garment is made to, on one side; `measures` are the ids of which any one will do, the usual one first. */
export type NeededMeasure = PartOfSide & { readonly measures: AnyOf; readonly own?: OwnMeasure };

/** Everything that one garment is made to: ladders, the one of its own limb first, and named measures; no ladder where they alone make it. */
export type GarmentSet = { readonly ladders: readonly LimbSide[]; readonly measures: readonly NeededMeasure[] };

/**
 * The ladders and named measures that a garment of a form is made to.
 *
 * The limb it is ordered for comes first. A form for both sides adds the other limb and the hands or feet of both; what is taken once (the
 * trunk, the head) stands once. A clinic's own form says it itself. A form made to named measures alone has no ladder; of one for trunk or head the
 * measures of both sides count.
 * Shape: a garment, the place it is ordered for. Source: common practice.
 * Example: waist-high for the right leg: ladders of the right and the left leg, foot measures of both, waist, hip and rise.
 */
export function garmentSet(garment: Pick<GarmentSpec, 'form' | 'own'>, { limb, side }: WornPlace): GarmentSet {
  const needs = garment.own ? needsOf(garment.own) : (NEEDS[garment.form] ?? own());
  const sides: readonly Side[] = side === 'middle' ? ['right', 'left'] : needs.sides === 'both' ? [side, otherSide(side)] : [side];
  const madeTo = formOf(garment)?.madeTo;
  const onLadder = limb === 'trunk' || limb === 'head' || madeTo ? [] : [limb];
  const ladders = [...onLadder, ...(needs.limbsToo ?? [])].flatMap((kind) => sides.map((one) => ({ limb: kind, side: one })));
  const taken = sides.flatMap((one) => needs.measures.flatMap((measures) => neededOn(measures, one, madeTo, garment.own?.own ?? [])));
  const measures = [...new Map(taken.map((needed) => [`${needed.side} ${needed.measures.join('|')}`, needed])).values()];
  return { ladders, measures };
}

function needsOf(form: OwnForm): Needs {
  const { sides, limbsToo } = laddersOf(form);
  return { sides, limbsToo, measures: form.measures.map((id): AnyOf => [id]) };
}

function neededOn(measures: AnyOf, side: Side, madeTo: Part | undefined, defined: readonly OwnMeasure[]): NeededMeasure[] {
  const own = defined.find(({ id }) => id === measures[0]);
  const measure = measureTaken({ measure: measures[0], own });
  if (!measure) return [];
  const part = madeTo && measure.alsoOf === madeTo ? madeTo : measure.part;
  return [{ part, side: measure.sides === 'middle' ? 'middle' : side, measures, ...(own ? { own } : {}) }];
}

/** Whether a named measure belongs to a garment's set: of a part and side the garment has, or needed by name. Example: the left foot of tights. */
export function isOfSet({ measures }: GarmentSet, taken: Pick<NamedMeasure, 'part' | 'side' | 'measure'>): boolean {
  return measures.some(({ part, side, measures: ids }) => side === taken.side && (part === taken.part || ids.includes(taken.measure)));
}
