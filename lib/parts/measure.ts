import type { Side } from '../ladder/limb';

/** A part of the body that is measured beside ladders. */
export const PARTS = ['hand', 'foot', 'trunk', 'head', 'residual-limb'] as const;
export type Part = (typeof PARTS)[number];

/** Where a named measure is taken: the patient's own left or right, or once for both in the middle. */
export type PartSide = Side | 'middle';

/** Every part with each side it is taken on, in the order in which they are offered. */
export const PART_PLACES: readonly { readonly part: Part; readonly side: PartSide }[] = [
  { part: 'hand', side: 'right' },
  { part: 'hand', side: 'left' },
  { part: 'foot', side: 'right' },
  { part: 'foot', side: 'left' },
  { part: 'trunk', side: 'middle' },
  { part: 'head', side: 'middle' },
  { part: 'residual-limb', side: 'right' },
  { part: 'residual-limb', side: 'left' },
];

/** What the tape does: goes round, along the skin, straight from mark to mark, up from the floor or seat, across. */
export type MeasureKind = 'girth' | 'length' | 'height' | 'breadth';

/** 1st, 50th and 99th percentile, mm. */
export type UsualRange = readonly [low: number, middle: number, high: number];

/** What a year adds, mm, between 2 and 17 years in bands of three years. */
export type YearlyGrowth = { readonly M: readonly number[]; readonly F: readonly number[] };

/** A named measure as the catalogue holds it. */
export type Measure = {
  /** As files write it. */
  readonly id: string;
  readonly part: Part;
  /** Another part under which it may be written: the neck belongs to trunk and head. */
  readonly alsoOf?: Part;
  readonly name: string;
  readonly kind: MeasureKind;
  /** `both`: left and right, each by itself; `middle`: once. */
  readonly sides: 'both' | 'middle';
  /** Where the tape goes. */
  readonly definition: string;
  /** Where the definition comes from. */
  readonly source: string;
  /** SD of one reading, mm. */
  readonly tapeSdMm: number;
  /** Grown men and women; null where no open survey is at hand. */
  readonly usualMm: { readonly M: UsualRange; readonly F: UsualRange } | null;
  /** Children of `CHILD_AGES`, both sexes; null where no open survey is at hand. */
  readonly childrenMm: readonly UsualRange[] | null;
  /** A middling grown person from memory, mm, where no survey is at hand: good enough for a decimal mark or the other unit, for nothing finer. */
  readonly roughMm: number | null;
  /** How far people differ from that figure, SD of the logarithm, where it is more than a body's usual spread. */
  readonly roughSd?: number;
  readonly yearlyGrowthMm: YearlyGrowth | null;
  /** What is known of its growth, in words. */
  readonly growth: string;
  /** Where a clinic added it: its definition, which travels with the figures. */
  readonly own?: OwnMeasure;
};

/**
 * A named measure that a clinic added itself. Its definition travels with every figure taken by it, so that a figure stays readable where
 * the measure was retired, and in another clinic.
 */
export type OwnMeasure = {
  /** `own-` and twelve hex digits, given once at random: two clinics never mean two things by one id. */
  readonly id: string;
  readonly part: Part;
  readonly name: string;
  readonly kind: MeasureKind;
  readonly sides: Measure['sides'];
  /** A figure outside is asked about, mm. */
  readonly lowMm: number;
  readonly highMm: number;
  /** SD of one reading, mm. */
  readonly tapeSdMm: number;
  /** How it is taken, and where that is laid down, in the clinic's words. */
  readonly definition: string;
  readonly source: string;
};

/** Middles of the age bands of `childrenMm` (2–3.4, 3.5–5.4, 5.5–8.4, 8.5–11.4, 11.5–14.4, 14.5–17.4), years. */
export const CHILD_AGES = [2.75, 4.5, 7, 10, 13, 16] as const;

/** Where `yearlyGrowthMm` begins, and how wide each of its bands is, years. */
export const GROWTH_BANDS = { from: 2, width: 3 } as const;

/** Whether a measure is taken on that side. Example: the hand girth on the left, never in the middle. */
export function isTakenOn(measure: Measure, side: PartSide): boolean {
  return (side === 'middle') === (measure.sides === 'middle');
}

/** A part of one side: `left hand`, `trunk`, `right residual limb`. */
export function partOfSideInWords(part: Part, side: PartSide): string {
  const name = part.replace('-', ' ');
  return side === 'middle' ? name : `${side} ${name}`;
}

/** A measure with its side: `left hand girth`, `hip girth`. */
export function measureInWords(measure: Measure, side: PartSide): string {
  return side === 'middle' ? measure.name : `${side} ${measure.name}`;
}
