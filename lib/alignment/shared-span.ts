import { type Alignment, toEarlier, toLater } from './align-ladders';

/** The stretch of anatomy that two ladders both tape, on the ruler of each, and its share of what the earlier one taped. */
export type SharedSpan = {
  readonly earlier: { readonly fromMm: number; readonly toMm: number };
  readonly later: { readonly fromMm: number; readonly toMm: number };
  readonly share: number;
};

/**
 * The overlap of two aligned ladders. Undefined when they have no stretch in common.
 *
 * Shape: places of both ladders rising, mm, and their alignment; both spans in mm, share 0 to 1.
 * Example: rungs 40…600 and 0…560 with no offset share 40…560 mm, 93 % of the earlier ladder.
 */
export function sharedSpan(earlierMm: readonly number[], laterMm: readonly number[], alignment: Alignment): SharedSpan | undefined {
  const first = earlierMm[0];
  const last = earlierMm[earlierMm.length - 1];
  const laterFirst = laterMm[0];
  const laterLast = laterMm[laterMm.length - 1];
  if (first === undefined || last === undefined || laterFirst === undefined || laterLast === undefined) return undefined;
  const fromMm = Math.max(first, toEarlier(alignment, laterFirst));
  const toMm = Math.min(last, toEarlier(alignment, laterLast));
  if (!(toMm > fromMm)) return undefined;
  const later = {
    fromMm: within(toLater(alignment, fromMm), laterFirst, laterLast),
    toMm: within(toLater(alignment, toMm), laterFirst, laterLast),
  };
  return { earlier: { fromMm, toMm }, later, share: (toMm - fromMm) / (last - first) };
}

/** Keeps a place inside the taped rungs when rounding of the last bit would put it a hair outside. */
function within(place: number, lowest: number, highest: number): number {
  return Math.min(Math.max(place, lowest), highest);
}
