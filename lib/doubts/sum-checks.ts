import type { Policy } from '../limits/policy';
import { measureOf } from '../parts/catalogue';
import { measureInWords, type PartSide } from '../parts/measure';
import type { NamedMeasure, PatientRecord, Visit } from '../record/patient-record';
import { normalReach } from '../statistics/normal';
import { daysBetween } from '../units/calendar-day';
import { capitalized } from '../units/capitalized';
import { mm } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';
import type { MeasureDoubt } from './measure-doubt';

type Usual = { readonly mean: number; readonly sd: number };

/** Measures that belong together in one figure, and what that figure is in grown people. */
type SumCheck = {
  readonly id: string;
  /** The first one is named in the question. `height` is the standing height. */
  readonly of: readonly string[];
  /** From the measures in that order, cm: a ratio or a sum. */
  readonly figure: (...cm: readonly number[]) => number;
  /** Grown people: mean and SD. */
  readonly M: Usual;
  readonly F: Usual;
  readonly words: string;
};

type ReadingErrors = Pick<Policy, 'errorScale' | 'heightReadingSdMm'>;

const over = (one: number, other: number) => one / other;

/**
 * Sum checks of grown people. Source: ANSUR II 2012, mean and SD of each figure (3,062 men, 1,490 women), as tests/lib/doubts works them
 * out anew. What the joint law knows better stays out: these are checks that a person can do in the head.
 */
export const SUM_CHECKS: readonly SumCheck[] = [
  {
    id: 'rise',
    of: ['crotch-height', 'waist-height-navel'],
    figure: over,
    M: { mean: 0.8006, sd: 0.018 },
    F: { mean: 0.7983, sd: 0.0191 },
    words: 'crotch height as a share of the height of the navel',
  },
  {
    id: 'seat-and-legs',
    of: ['crotch-height', 'sitting-height', 'height'],
    figure: (crotch, sitting, height) => crotch + sitting - height,
    M: { mean: 0.81, sd: 1.665 },
    F: { mean: 1.041, sd: 1.492 },
    words: 'crotch height and sitting height less the height, in cm',
  },
  {
    id: 'palm',
    of: ['palm-length', 'hand-length'],
    figure: over,
    M: { mean: 0.603, sd: 0.02 },
    F: { mean: 0.6008, sd: 0.0189 },
    words: 'palm length as a share of the hand length',
  },
  {
    id: 'ball',
    of: ['ball-length', 'foot-length'],
    figure: over,
    M: { mean: 0.7409, sd: 0.0148 },
    F: { mean: 0.7392, sd: 0.0135 },
    words: 'heel to ball as a share of the foot length',
  },
  {
    id: 'hand-and-wrist',
    of: ['hand-girth', 'wrist-girth'],
    figure: over,
    M: { mean: 1.2072, sd: 0.0402 },
    F: { mean: 1.2075, sd: 0.0421 },
    words: 'hand girth as a share of the wrist girth',
  },
  {
    id: 'heel-and-ball',
    of: ['heel-ankle-girth', 'ball-girth'],
    figure: over,
    M: { mean: 1.3636, sd: 0.0487 },
    F: { mean: 1.3603, sd: 0.0497 },
    words: 'heel–ankle girth as a share of the ball girth',
  },
  {
    id: 'neck-and-base',
    of: ['neck-girth', 'neck-base-girth'],
    figure: (neck, base) => base - neck,
    M: { mean: 3.692, sd: 0.947 },
    F: { mean: 4.128, sd: 0.95 },
    words: 'neck base less neck, in cm',
  },
  {
    id: 'rise-length',
    of: ['crotch-length', 'waist-height-navel', 'crotch-height'],
    figure: (length, waist, crotch) => length - 2 * (waist - crotch),
    M: { mean: 20.181, sd: 4.507 },
    F: { mean: 22.528, sd: 3.79 },
    words: 'crotch length less twice the rise (height of the navel less crotch height), in cm',
  },
  {
    id: 'back-rise',
    of: ['crotch-length-back', 'crotch-length'],
    figure: over,
    M: { mean: 0.5723, sd: 0.0375 },
    F: { mean: 0.5506, sd: 0.0328 },
    words: 'back rise as a share of the crotch length',
  },
];

/**
 * All sum checks together may ask about so many grown people, if people were normal; they spread a little wider, and it is about three
 * times as many. Clinic default, to keep within the aim of one in fifty.
 */
const ASKED_SHARE = 0.004;
/** Checks of a person of whom everything was taken: five of the trunk, four of each side. */
const CHECKS = 13;

/** Parts that add up to a whole by their definition, at any age: the sum of the first two is the third. Within so many SDs of reading. */
const EXACT_SUMS = [
  ['palm-length', 'middle-finger-length', 'hand-length'],
  ['crotch-length-front', 'crotch-length-back', 'crotch-length'],
] as const;

/** A part is shorter or smaller than its whole at any age. */
const PART_OF = [
  ['palm-length', 'hand-length'],
  ['ball-length', 'foot-length'],
  ['crotch-height', 'waist-height-navel'],
  ['crotch-length-back', 'crotch-length'],
  ['crotch-length-front', 'crotch-length'],
  ['hand-girth', 'hand-girth-with-thumb'],
] as const;

/**
 * Questions of measures that do not add up: parts larger than their whole, parts that do not make it up, and sums of grown people far from
 * what is usual.
 *
 * A usual sum is asked about beyond z SDs of people and readings together, z = normalReach(1 − 0.004 / 13), so that all checks together leave
 * 99 of 100 people alone. An exact sum beyond the same z times the root of the three reading variances. Each check asks once, about the measure that lies
 * furthest from what all others expect. Sums of grown people are not asked of affected hands and feet, nor of sex X or children.
 * Shape: a record, a visit, its measures and its height (or null) as far as they are trusted, how far each lies from what the others expect (SDs).
 * Source: ANSUR II 2012; definitions of the catalogue. Example: crotch height 94 cm, navel 105 cm: share 0.895, usual 0.80: asked.
 */
export function sumDoubts(
  record: PatientRecord,
  visit: Visit,
  trusted: readonly NamedMeasure[],
  height: Visit['height'],
  apart: (taken: NamedMeasure) => number,
  policy: Pick<Policy, 'grownFromYears'> & ReadingErrors,
): MeasureDoubt[] {
  const asked = new Map<NamedMeasure, MeasureDoubt>();
  for (const side of ['left', 'right', 'middle'] as const) {
    const on = (id: string) => trusted.find((one) => one.measure === id && (one.side === side || one.side === 'middle'));
    const ask = (ids: readonly string[], reason: string) => {
      const taken = ids.flatMap((id) => on(id) ?? []);
      if (!taken.some((one) => one.side === side) || taken.some((one) => asked.has(one))) return;
      const odd = taken.reduce((one, other) => (apart(other) > apart(one) ? other : one));
      asked.set(odd, { taken: odd, kind: 'sum-check', message: `${question(odd)} ${reason}` });
    };
    for (const [part, whole] of PART_OF) {
      const [one, other] = [on(part), on(whole)];
      if (one && other && one.length.nm >= other.length.nm)
        ask([part, whole], `${nameOf(one)} is not smaller than ${nameOf(other, false)}.`);
    }
    for (const ids of EXACT_SUMS) {
      const [one, other, whole] = ids.map(on);
      if (!one || !other || !whole) continue;
      const [first, second, sum] = [mm(one.length.nm), mm(other.length.nm), mm(whole.length.nm)];
      const sd = Math.sqrt(policy.errorScale) * Math.hypot(...ids.map((id) => measureOf(id)?.tapeSdMm ?? 0));
      const shown = (lengthMm: number) => showLengthWithUnit(lengthMm, whole.length.unit);
      if (Math.abs(first + second - sum) > reach() * sd)
        ask(
          ids,
          `${nameOf(one)} and ${nameOf(other, false)} together are ${shown(first + second)}, ${nameOf(whole, false)} is ${shown(sum)}.`,
        );
    }
    if (!isGrown(record, visit, policy) || record.affectedParts?.some((one) => one.side === side)) continue;
    for (const check of SUM_CHECKS) {
      const found = figureOf(check, on, height, policy);
      const usual = record.sex === 'X' ? undefined : check[record.sex];
      if (!found || !usual || Math.abs(found.value - usual.mean) <= reach() * Math.hypot(usual.sd, found.sd)) continue;
      const digits = usual.mean < 2 && usual.sd < 0.1 ? 2 : 1;
      ask(check.of, `${capitalized(check.words)}: ${found.value.toFixed(digits)}, usually about ${usual.mean.toFixed(digits)}.`);
    }
  }
  return [...asked.values()];
}

/** How many SDs a sum may lie from the usual one. */
function reach(): number {
  return normalReach(1 - ASKED_SHARE / CHECKS);
}

function isGrown(record: PatientRecord, visit: Visit, policy: Pick<Policy, 'grownFromYears'>): boolean {
  return daysBetween(record.born, visit.day) >= policy.grownFromYears * 365.25;
}

/** The figure of a check and what the reading of its measures adds to its SD; undefined where one of them is missing. */
function figureOf(
  { of, figure }: SumCheck,
  on: (id: string) => NamedMeasure | undefined,
  height: Visit['height'],
  policy: ReadingErrors,
): { readonly value: number; readonly sd: number } | undefined {
  const lengths = of.map((id) => (id === 'height' ? height : on(id)?.length));
  const cm = lengths.flatMap((length) => (length ? [mm(length.nm) / 10] : []));
  if (cm.length < of.length) return undefined;
  const value = figure(...cm);
  const byReading = of.map((id, term) => {
    const sdCm = (id === 'height' ? policy.heightReadingSdMm : (measureOf(id)?.tapeSdMm ?? 0)) / 10;
    return figure(...cm.map((length, index) => (index === term ? length + sdCm : length))) - value;
  });
  return { value, sd: Math.sqrt(policy.errorScale) * Math.hypot(...byReading) };
}

function question(taken: NamedMeasure): string {
  return `${nameOf(taken)}: ${showLengthWithUnit(mm(taken.length.nm), taken.length.unit)}?`;
}

function nameOf({ measure, side }: NamedMeasure, first = true): string {
  const found = measureOf(measure);
  const words = found ? measureInWords(found, side as PartSide) : measure;
  return first ? capitalized(words) : words;
}
