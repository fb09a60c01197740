import { FOOT } from './foot';
import { HAND } from './hand';
import { HEAD } from './head';
import type { Measure, Part } from './measure';
import { RESIDUAL_LIMB } from './residual-limb';
import { TRUNK } from './trunk';

/** Every named measure that the program knows, by its id. A new one is one entry in the file of its part. */
const BY_ID: ReadonlyMap<string, Measure> = new Map(
  [...HAND, ...FOOT, ...TRUNK, ...HEAD, ...RESIDUAL_LIMB].map((measure) => [measure.id, measure]),
);

/** All of them, in the order of the parts. */
export const MEASURES: readonly Measure[] = [...BY_ID.values()];

/** The measure of an id, or undefined. */
export function measureOf(id: string): Measure | undefined {
  return BY_ID.get(id);
}

/** The measures that may be written under a part. Example: the neck girth under trunk and under head. */
export function measuresOfPart(part: Part): readonly Measure[] {
  return MEASURES.filter((measure) => measure.part === part || measure.alsoOf === part);
}
