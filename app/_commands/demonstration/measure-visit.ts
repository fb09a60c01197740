import { measureOf } from '@/lib/parts/catalogue';
import type { NamedMeasure } from '@/lib/record/patient-record';
import type { LengthUnit } from '@/lib/units/length';
import { type Hand, typedLength } from './hand';
import { seededRandom } from './seeded-random';

/** A named measure of a story: id, where, its size at the first visit and what each further visit adds, cm. */
export type StoryMeasure = { readonly id: string; readonly side: NamedMeasure['side']; readonly cm: number; readonly addsCm?: number };

/** What a hand in good taping misses by, as a share of the catalogue's error of one reading: made-up staff are a little better than it. */
const STEADY = 0.6;

/** The named measures of one visit of a story, with small errors from a seed of their own; ladders are not moved by them. */
export function measuresOn(
  reference: string,
  number: number,
  measures: readonly StoryMeasure[],
  unit: LengthUnit,
  by: Hand,
): NamedMeasure[] {
  const random = seededRandom(`${reference} named measures ${number}`);
  return measures.map(({ id, side, cm, addsCm = 0 }) => {
    const measure = measureOf(id);
    if (!measure) throw new RangeError(`no measure ${id}`);
    const length = typedLength(cm + addsCm * number + ((STEADY * measure.tapeSdMm) / 10) * random.normal(), unit, by);
    return { part: measure.part, side, measure: id, length };
  });
}

/** A woman's right hand that is swollen and becomes less so: figures near the middle of the catalogue, fingers from memory. */
export const SWOLLEN_HAND: readonly StoryMeasure[] = [
  { id: 'wrist-girth', side: 'right', cm: 16.4, addsCm: -0.08 },
  { id: 'hand-girth', side: 'right', cm: 20.1, addsCm: -0.16 },
  { id: 'palm-length', side: 'right', cm: 9.9 },
  ...(
    [
      ['thumb', 6.9, 5.9, 5.8],
      ['index-finger', 6.7, 5.3, 7.0],
      ['middle-finger', 6.8, 5.4, 7.7],
      ['ring-finger', 6.3, 5.0, 7.1],
      ['little-finger', 5.6, 4.6, 5.6],
    ] as const
  ).flatMap(([digit, base, tip, length]): StoryMeasure[] => [
    { id: `${digit}-base-girth`, side: 'right', cm: base, addsCm: -0.04 },
    { id: `${digit}-tip-girth`, side: 'right', cm: tip, addsCm: -0.02 },
    { id: `${digit}-length`, side: 'right', cm: length },
  ]),
];

/** A heavy man's feet, waist, hip and rise: figures near the catalogue's middle and above it, from memory. */
export const TIGHTS: readonly StoryMeasure[] = [
  ...(['left', 'right'] as const).flatMap((side): StoryMeasure[] => [
    { id: 'foot-length', side, cm: 27.1 },
    { id: 'ball-girth', side, cm: side === 'left' ? 26.4 : 25.6, addsCm: 0.1 },
    { id: 'heel-ankle-girth', side, cm: side === 'left' ? 35.8 : 35.1, addsCm: 0.1 },
  ]),
  { id: 'waist-girth-navel', side: 'middle', cm: 101, addsCm: 1.6 },
  { id: 'hip-girth', side: 'middle', cm: 106, addsCm: 1.1 },
  { id: 'crotch-length-front', side: 'middle', cm: 33, addsCm: 0.3 },
  { id: 'crotch-length-back', side: 'middle', cm: 39.5, addsCm: 0.3 },
];
