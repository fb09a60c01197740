import { mm } from '../units/length';
import type { Ladder } from './ladder';

/** How many pairs of tapings there are, and the sum of their squared differences, mm². */
export type RepeatPairs = { readonly pairs: number; readonly squaresMm2: number };

/** Pairs from which the clinic's own figure counts. Clinic default: with ten the 95 % range of an SD is 0.70 to 1.75 times it (χ², 10 d.f.). */
export const FEWEST_PAIRS = 10;

/**
 * The smallest reading SD that is believed, mm: a tape read to ⅛ in is uncertain by 0.29 × 3.175 = 0.92 mm by its marks alone.
 *
 * Source: JCGM 100:2008 (GUM) F.2.2.1, resolution δx gives a standard uncertainty of 0.29 δx; rounded up. A second taping read with the
 * first in mind agrees too well.
 */
const LEAST_SD_MM = 1;

/**
 * Two tapings further apart than this are a slip of the hand unless somebody kept them, mm: about six SDs of a difference, 6 × √2 × 3 mm.
 *
 * Clinic default. One pair with swapped digits would otherwise make every tape of the clinic look rough.
 */
const SLIP_APART_MM = 25;

/**
 * The pairs of one ladder that tell something of the tape: both girths there, and not so far apart that one is a slip.
 * Example: 230 and 232 mm at one rung, nothing twice elsewhere → 1 pair, 4 mm².
 */
export function repeatPairs(ladder: Ladder): RepeatPairs {
  const differences = ladder.rungs.flatMap(({ girth, again, kept }) => {
    if (!girth || !again) return [];
    const apart = mm(again.nm) - mm(girth.nm);
    const confirmed = kept?.some((one) => one.kind === 'taped-twice') ?? false;
    return Math.abs(apart) <= SLIP_APART_MM || confirmed ? [apart] : [];
  });
  return { pairs: differences.length, squaresMm2: differences.reduce((sum, apart) => sum + apart * apart, 0) };
}

/**
 * SD of one girth reading by second tapings, mm to one decimal: √(Σ d² / 2n), d the differences of n pairs, never below `LEAST_SD_MM`.
 *
 * Undefined below ten pairs. Source: Dahlberg 1940 (method error from duplicates).
 * Example: ten pairs that differ by 4 mm each: √(160 / 20) = 2.8 mm.
 */
export function repeatSd({ pairs, squaresMm2 }: RepeatPairs): number | undefined {
  if (pairs < FEWEST_PAIRS) return undefined;
  return Math.max(LEAST_SD_MM, Math.round(10 * Math.sqrt(squaresMm2 / (2 * pairs))) / 10);
}
