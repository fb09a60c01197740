import type { Measure, Part } from './measure';

/** Sources of definitions and ranges, as the catalogue names them. */
export const SOURCES = {
  iso: 'ISO 8559-1:2017, as quoted on a public page; the text of the standard itself was not at hand',
  ansur: 'ANSUR II, NATICK/TR-15/007 (2014) and its measurer’s handbook TR-11/017; wording from memory',
  schema: 'schema.org, size systems for clothing',
  common: 'Common practice of garment measuring',
} as const;

/** No figure of growth, in words. */
const NO_GROWTH = 'Grows in children; no open figure by age is at hand.';

type Given = Pick<Measure, 'id' | 'name' | 'kind' | 'definition' | 'source' | 'tapeSdMm'> & Partial<Measure>;

/** A measure from what differs, the rest as nothing known. */
export function madeMeasure(part: Part, sides: Measure['sides'], given: Given): Measure {
  return { part, sides, usualMm: null, childrenMm: null, roughMm: null, yearlyGrowthMm: null, growth: NO_GROWTH, ...given };
}
