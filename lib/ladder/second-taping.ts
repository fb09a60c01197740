import { mm, type TypedLength } from '../units/length';
import { showLengthWithUnit, showTapedLength } from '../units/show-length';
import type { Doubt } from './doubt';
import { DOUBT_LIMITS } from './doubt-limits';
import type { Ladder } from './ladder';

/**
 * Whether two measurings of one rung differ by more than two readings of a tape do. Source: `DOUBT_LIMITS.againMm`.
 *
 * Example: 31.0 and 31.9 cm: 9 mm apart, more than 8.3.
 */
export function differMoreThanTape(first: TypedLength, again: TypedLength): boolean {
  return Math.abs(mm(again.nm) - mm(first.nm)) > DOUBT_LIMITS.againMm.value;
}

/**
 * Rungs measured twice whose two girths differ by more than tape error; the second is offered in place of the first.
 *
 * Example: 12⅛ and 12⅞ in: 19 mm apart, asked; 12⅛ and 12¼: 3 mm, not.
 */
export function secondTapingDoubts(ladder: Ladder): Doubt[] {
  return ladder.rungs.flatMap((rung): Doubt[] => {
    if (!rung.girth || !rung.again || !differMoreThanTape(rung.girth, rung.again)) return [];
    const [first, second] = [mm(rung.girth.nm), mm(rung.again.nm)];
    const place = showLengthWithUnit(mm(rung.distance.nm), ladder.unit);
    const apart = showLengthWithUnit(Math.abs(second - first), ladder.unit, 16);
    const message = `${place}: ${showTapedLength(first, ladder.unit)} or ${showTapedLength(second, ladder.unit)}? The two measurings differ by ${apart}; those of one place seldom differ by more than ${showLengthWithUnit(DOUBT_LIMITS.againMm.value, ladder.unit, 16)}.`;
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
