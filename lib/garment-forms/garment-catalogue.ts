import type { LimbKind } from '../ladder/limb';
import type { OwnMeasure, Part } from '../parts/measure';
import type { TypedLength } from '../units/length';

/** A part of the body whose bones or airway a child's garment may press while they grow. Source: Fricke 1996 and 1999; common practice. */
export type GrowthWatchPart = 'face' | 'neck' | 'chest' | 'hand' | 'foot';

/** A form of garment by what it covers, in the words of the trade. */
export type GarmentForm = {
  readonly id: string;
  readonly words: string;
  readonly limb: LimbKind | 'trunk' | 'head';
  /** The part whose named measures alone it is made to; left out where it lies on a ladder. */
  readonly madeTo?: Part;
  /** Parts judged one by one at the first fit, from far to near. */
  readonly zones: readonly string[];
  readonly watch: readonly GrowthWatchPart[];
};

const form = (
  id: string,
  words: string,
  limb: LimbKind,
  zones: readonly string[],
  watch: readonly GrowthWatchPart[] = [],
): GarmentForm => ({
  id,
  words,
  limb,
  zones,
  watch,
});

const ofMeasures = (
  id: string,
  words: string,
  limb: GarmentForm['limb'],
  madeTo: Part,
  zones: readonly string[],
  watch: readonly GrowthWatchPart[],
): GarmentForm => ({ id, words, limb, madeTo, zones, watch });

const FOOT = ['toes', 'foot', 'heel and ankle'];
const HAND = ['fingers', 'hand', 'wrist'];

/** Forms of garment for arm, leg and trunk with limb. Source: common practice (terms of the trade). */
export const GARMENT_FORMS: readonly GarmentForm[] = [
  form('anklet', 'anklet, foot to above the ankle', 'leg', FOOT, ['foot']),
  form('knee-high', 'knee-high, foot to below the knee', 'leg', [...FOOT, 'calf', 'top edge'], ['foot']),
  form('mid-thigh', 'foot to mid-thigh', 'leg', [...FOOT, 'calf', 'knee', 'top edge'], ['foot']),
  form('thigh-high', 'thigh-high, foot to below the gluteal fold', 'leg', [...FOOT, 'calf', 'knee', 'thigh', 'top edge'], ['foot']),
  form('thigh-high-waist', 'thigh-high with waist attachment', 'leg', [...FOOT, 'calf', 'knee', 'thigh', 'waist'], ['foot']),
  form('leg-sleeve', 'leg sleeve without foot', 'leg', ['bottom edge', 'calf', 'knee', 'thigh', 'top edge']),
  form('calf-sleeve', 'calf sleeve', 'leg', ['bottom edge', 'calf', 'top edge']),
  form('knee-sleeve', 'knee sleeve', 'leg', ['bottom edge', 'knee', 'top edge']),
  form('thigh-sleeve', 'thigh sleeve', 'leg', ['bottom edge', 'thigh', 'top edge']),
  form(
    'one-leg-panty',
    'one leg with panty, to the waist',
    'leg',
    [...FOOT, 'calf', 'knee', 'thigh', 'seat and crotch', 'waist'],
    ['foot'],
  ),
  form('waist-high', 'waist-high, both legs', 'leg', [...FOOT, 'calf', 'knee', 'thigh', 'seat and crotch', 'waist'], ['foot']),
  form('above-knee-short', 'above-knee short, to the waist', 'leg', ['leg edge', 'thigh', 'seat and crotch', 'waist']),
  form('gauntlet', 'gauntlet, hand with thumb, no fingers', 'arm', ['hand', 'thumb', 'wrist'], ['hand']),
  form('glove', 'glove, fingers to wrist', 'arm', HAND, ['hand']),
  form('long-glove', 'long glove, fingers to elbow', 'arm', [...HAND, 'forearm', 'top edge'], ['hand']),
  form('arm-sleeve', 'arm sleeve, wrist to axilla', 'arm', ['wrist', 'forearm', 'elbow', 'upper arm', 'top edge']),
  form('arm-sleeve-shoulder', 'arm sleeve with shoulder cap', 'arm', ['wrist', 'forearm', 'elbow', 'upper arm', 'shoulder']),
  form(
    'sleeve-gauntlet',
    'arm sleeve with gauntlet',
    'arm',
    ['hand', 'thumb', 'wrist', 'forearm', 'elbow', 'upper arm', 'top edge'],
    ['hand'],
  ),
  form('sleeve-glove', 'arm sleeve with glove', 'arm', [...HAND, 'forearm', 'elbow', 'upper arm', 'top edge'], ['hand']),
  form('elbow-sleeve', 'elbow sleeve', 'arm', ['bottom edge', 'elbow', 'top edge']),
  form(
    'vest-sleeve-collar',
    'vest with sleeve and collar',
    'arm',
    ['wrist', 'forearm', 'elbow', 'upper arm', 'axilla', 'neck', 'chest', 'bottom edge'],
    ['neck', 'chest'],
  ),
  form(
    'vest-sleeve-hood',
    'vest with sleeve and hood over the face',
    'arm',
    ['wrist', 'forearm', 'elbow', 'upper arm', 'axilla', 'face', 'neck', 'chest', 'bottom edge'],
    ['face', 'neck', 'chest'],
  ),
  form(
    'bodysuit-leg',
    'body suit with leg, to the shoulders',
    'leg',
    [...FOOT, 'calf', 'knee', 'thigh', 'seat and crotch', 'waist', 'chest', 'shoulder'],
    ['chest', 'foot'],
  ),
  form('vest-sleeve', 'vest with sleeve', 'arm', ['wrist', 'forearm', 'elbow', 'upper arm', 'axilla', 'chest', 'bottom edge'], ['chest']),
  form(
    'vest-two-sleeves',
    'vest with two sleeves',
    'arm',
    ['wrist', 'forearm', 'elbow', 'upper arm', 'axilla', 'chest', 'bottom edge'],
    ['chest'],
  ),
  form(
    'body-garment',
    'body garment, both legs to the shoulders',
    'leg',
    ['leg edge', 'calf', 'knee', 'thigh', 'seat and crotch', 'waist', 'chest', 'shoulder'],
    ['chest'],
  ),
  form(
    'body-garment-sleeves',
    'body garment, both legs and both sleeves',
    'leg',
    ['leg edge', 'calf', 'knee', 'thigh', 'seat and crotch', 'waist', 'chest', 'axilla', 'upper arm', 'elbow', 'forearm', 'wrist'],
    ['chest'],
  ),
  ofMeasures('hand-glove', 'glove, made to hand measures alone', 'arm', 'hand', HAND, ['hand']),
  ofMeasures('hand-gauntlet', 'gauntlet without fingers, made to hand measures alone', 'arm', 'hand', ['hand', 'thumb', 'wrist'], ['hand']),
  ofMeasures('foot-piece', 'foot piece, below the ankle, open toes', 'leg', 'foot', ['front edge', 'foot', 'heel'], ['foot']),
  ofMeasures(
    'mask',
    'mask over face and head',
    'head',
    'head',
    ['forehead', 'eyes', 'nose', 'mouth', 'chin', 'back of the head'],
    ['face'],
  ),
  ofMeasures(
    'mask-neck',
    'mask over face, head and neck',
    'head',
    'head',
    ['forehead', 'eyes', 'nose', 'mouth', 'chin', 'neck', 'back of the head'],
    ['face', 'neck'],
  ),
  ofMeasures('chin-band', 'chin band', 'head', 'head', ['chin', 'ears', 'back of the head'], ['face']),
  ofMeasures(
    'vest-sleeveless',
    'vest without sleeves',
    'trunk',
    'trunk',
    ['shoulder', 'armholes', 'chest', 'waist', 'bottom edge'],
    ['chest'],
  ),
];

/** The form of that id, or undefined. */
export function garmentForm(id: string): GarmentForm | undefined {
  return GARMENT_FORMS.find((one) => one.id === id);
}

/** When a garment is worn. */
export type GarmentUse = 'day' | 'night' | 'other';

/** A compression class never stands alone: its scheme and its range in mmHg go with it, because schemes differ. */
export type PressureClass = { readonly scheme: string; readonly name: string; readonly lowMmHg: number; readonly highMmHg: number };

/** Extras of a garment, each with the choices of the trade. Source: common practice. */
export const GARMENT_OPTIONS = {
  closure: ['zip', 'hook-and-loop', 'hook-and-eye', 'placket'],
  opening: ['open toe', 'closed toe', 'open fingertips', 'closed fingertips', 'fly', 'crotch opening', 'tube opening'],
  lining: ['full lining', 'patch lining', 'seamless lining'],
  band: ['top band', 'grip band', 'waistband', 'cuff'],
  'joint insert': ['softer insert', 'ease at the joint', 'dart', 'gusset'],
  silicone: ['silicone sheet', 'silicone lining'],
  pad: ['pad', 'foam insert', 'finger web spacer'],
  'expansion panel': ['expansion panel', 'let-out seam', 'growth tuck'],
} as const;

/** A kind of extra. */
export type OptionKind = keyof typeof GARMENT_OPTIONS;

/** One extra: what, where on the garment, and how wide where that has a meaning. */
export type GarmentOption = {
  readonly kind: OptionKind;
  readonly choice: string;
  readonly place: string;
  readonly width: TypedLength | null;
};

/** The ladders that a clinic's own form of garment may be made to, or the part whose named measures alone make it. */
export const OWN_FORM_LADDERS = [
  ...(['leg', 'both legs', 'arm', 'both arms', 'both legs and both arms'] as const),
  ...(['hand, no ladder', 'foot, no ladder', 'trunk, no ladder', 'head, no ladder'] as const),
];

/**
 * A form of garment that a clinic added itself. Its definition goes with every order and piece of it, so that they stay readable where it
 * was retired, and in another clinic.
 */
export type OwnForm = {
  /** `own-` and twelve hex digits, given once at random. */
  readonly id: string;
  readonly words: string;
  readonly ladders: (typeof OWN_FORM_LADDERS)[number];
  /** Ids of the named measures it is made to. */
  readonly measures: readonly string[];
  /** Definitions of those among them that the clinic added. */
  readonly own: readonly OwnMeasure[];
  /** Days to make and deliver, and days of wear: what an order starts from. */
  readonly leadDays: number;
  readonly lifeDays: number;
};

/** What a garment is, beside the figures it is cut to. */
export type GarmentSpec = {
  readonly form: string;
  readonly use: GarmentUse;
  readonly pressure: PressureClass | null;
  readonly options: readonly GarmentOption[];
  /** The definition of the form, where a clinic added it. */
  readonly own?: OwnForm;
};
