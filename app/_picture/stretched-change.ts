import { halfWidth } from './outline-path';

/** How much an earlier outline's difference from today is stretched so that it can be seen. */
export type Stretch = 1 | 2 | 3 | 4;

/**
 * The smallest factor of 1 to 4 at which the largest change of half-width is at least 5 px.
 *
 * 1 cm of girth is only 1.6 mm of half-width, so an honest earlier line would hide behind today's.
 * Shape: girths of today and earlier at the same rungs, mm; px per mm. Example: 6 mm of girth at 0.866 px/mm is 0.83 px: factor 4.
 */
export function stretchFor(todayMm: readonly number[], earlierMm: readonly number[], scale: number): Stretch {
  const largest = Math.max(0, ...todayMm.map((girth, rung) => Math.abs(halfWidth(girth - (earlierMm[rung] ?? girth), scale))));
  for (const factor of [1, 2, 3] as const) if (largest * factor >= 5) return factor;
  return 4;
}

/** Girths to draw an earlier line with: today's plus the stretched difference, never past the centre line. */
export function stretchedGirths(todayMm: readonly number[], earlierMm: readonly number[], stretch: Stretch): number[] {
  return todayMm.map((girth, rung) => Math.max(girth + stretch * ((earlierMm[rung] ?? girth) - girth), 0));
}
