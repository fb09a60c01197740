import { girthAt, rungBelow } from '../ladder/girth-at';
import { frustum } from './frustum';

/** A stretch of a ladder's own ruler, mm. */
export type Span = { readonly fromMm: number; readonly toMm: number };

/**
 * The stretch that a ladder tapes: first to last rung. Undefined with fewer than two rungs.
 *
 * Example: rungs at 40, 80 and 95 mm span 40 to 95 mm.
 */
export function tapedSpan(placesMm: readonly number[]): Span | undefined {
  const fromMm = placesMm[0];
  const toMm = placesMm[placesMm.length - 1];
  if (fromMm === undefined || toMm === undefined || toMm <= fromMm) return undefined;
  return { fromMm, toMm };
}

/**
 * Limb volume over a span: the frusta between neighbouring rungs, cut exactly at both ends of the span.
 *
 * Shape: places rising strictly and girths, mm, same length; span in mm on the same ruler; mm³ out.
 * Refuses (undefined) a span that is empty or reaches past the first or last rung: nothing is extrapolated.
 * Source: sum of truncated cones, girth linear between rungs.
 * Example: girths 300, 400, 500 mm at 0, 40, 80 mm give 40·(370,000 + 610,000)/12π = 1,039,812.3 mm³ over the whole.
 */
export function spanVolume(placesMm: readonly number[], girthsMm: readonly number[], span: Span): number | undefined {
  const { fromMm, toMm } = span;
  if (!(toMm > fromMm)) return undefined;
  const lowerGirth = girthAt(placesMm, girthsMm, fromMm);
  const upperGirth = girthAt(placesMm, girthsMm, toMm);
  if (lowerGirth === undefined || upperGirth === undefined) return undefined;
  let volume = 0;
  let place = fromMm;
  let girth = lowerGirth;
  for (let next = rungBelow(placesMm, fromMm) + 1; next < placesMm.length; next++) {
    const nextPlace = placesMm[next] as number;
    if (nextPlace >= toMm) break;
    const nextGirth = girthsMm[next] as number;
    volume += frustum(nextPlace - place, girth, nextGirth);
    place = nextPlace;
    girth = nextGirth;
  }
  return volume + frustum(toMm - place, girth, upperGirth);
}
