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
