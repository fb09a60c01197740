import { mm, type TypedLength } from '../units/length';
import { showLength, showLengthWithUnit } from '../units/show-length';
import type { Doubt } from './doubt';
import { DOUBT_LIMITS } from './doubt-limits';
import type { Ladder } from './ladder';

/** Whether two tapings of one rung differ by more than two readings of a tape do. Source: `DOUBT_LIMITS.againMm`. */
export function differMoreThanTape(first: TypedLength, again: TypedLength): boolean {
  return Math.abs(mm(again.nm) - mm(first.nm)) > DOUBT_LIMITS.againMm.value;
}

/**
 * Rungs taped twice whose two girths differ by more than tape error; the second is offered in place of the first.
 *
 * Example: 12⅛ and 12⅞ in: 19 mm apart, asked; 12⅛ and 12¼: 3 mm, not.
 */
export function secondTapingDoubts(ladder: Ladder): Doubt[] {
  return ladder.rungs.flatMap((rung): Doubt[] => {
    if (!rung.girth || !rung.again || !differMoreThanTape(rung.girth, rung.again)) return [];
    const [first, second] = [mm(rung.girth.nm), mm(rung.again.nm)];
    const place = showLengthWithUnit(mm(rung.distance.nm), ladder.unit);
    const apart = showLengthWithUnit(Math.abs(second - first), ladder.unit);
    const message = `${place}: ${showLength(first, ladder.unit)} or ${showLength(second, ladder.unit)}? The two tapings are ${apart} apart; two readings of one place are seldom more than ${showLengthWithUnit(DOUBT_LIMITS.againMm.value, ladder.unit)} apart.`;
    return [
      {
        kind: 'taped-twice',
        distanceMm: mm(rung.distance.nm),
        message,
        wouldFitMm: second,
      },
    ];
  });
}

/**
 * SD of one girth reading by the clinic's own second tapings, mm: √(Σ d² / 2n), d the differences of n pairs.
 *
 * Shape: ladders with some rungs taped twice; undefined below ten pairs. Source: Dahlberg 1940 (method error from duplicates).
 * Example: ten pairs that differ by 4 mm each: 2.83 mm.
 */
export function repeatSd(ladders: readonly Ladder[]): { readonly sdMm: number; readonly pairs: number } | undefined {
  const differences = ladders.flatMap((ladder) =>
    ladder.rungs.flatMap((rung) => (rung.girth && rung.again ? [mm(rung.again.nm) - mm(rung.girth.nm)] : [])),
  );
  if (differences.length < 10) return undefined;
  const squares = differences.reduce((sum, difference) => sum + difference * difference, 0);
  return {
    sdMm: Math.sqrt(squares / (2 * differences.length)),
    pairs: differences.length,
  };
}
