/**
 * Index of the rung at or below a place, or −1 below the first rung.
 *
 * Shape: places rising strictly, one place, same unit. Binary search.
 * Example: among 0, 40, 80 the place 50 has rung 1 below it.
 */
export function rungBelow(placesMm: readonly number[], placeMm: number): number {
  let low = 0;
  let high = placesMm.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((placesMm[middle] as number) <= placeMm) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/**
 * Girth between rungs, linear along the limb; undefined outside the taped stretch.
 *
 * Linear girth is the assumption of the frustum (truncated cone), so cutting a frustum here is exact.
 * Shape: places rising strictly and girths, mm; one place, mm. Refuses to go past the first or last rung.
 * Example: girths 200 and 240 at places 0 and 40 give 210 at place 10.
 */
export function girthAt(placesMm: readonly number[], girthsMm: readonly number[], placeMm: number): number | undefined {
  const below = rungBelow(placesMm, placeMm);
  if (below < 0) return undefined;
  const lowerPlace = placesMm[below] as number;
  const lowerGirth = girthsMm[below] as number;
  if (lowerPlace === placeMm) return lowerGirth;
  if (below + 1 >= placesMm.length) return undefined;
  const share = (placeMm - lowerPlace) / ((placesMm[below + 1] as number) - lowerPlace);
  return lowerGirth + share * ((girthsMm[below + 1] as number) - lowerGirth);
}

/** A place this little outside the taped stretch is the end rung itself, moved by rounding or by the last bit of an alignment, mm. */
const END_TOLERANCE_MM = 1;

/**
 * Girth between rungs as `girthAt`, but a place within a millimetre outside the first or last rung counts as that rung.
 *
 * For places carried over from another ladder, where rounding would put the end rung a hair outside itself.
 * Example: rungs up to 600 mm: place 600.0001 has the girth of the last rung; 602 has none.
 */
export function girthNear(placesMm: readonly number[], girthsMm: readonly number[], placeMm: number): number | undefined {
  const first = placesMm[0];
  const last = placesMm.at(-1);
  if (first === undefined || last === undefined) return undefined;
  if (placeMm < first && placeMm >= first - END_TOLERANCE_MM) return girthsMm[0];
  if (placeMm > last && placeMm <= last + END_TOLERANCE_MM) return girthsMm.at(-1);
  return girthAt(placesMm, girthsMm, placeMm);
}
