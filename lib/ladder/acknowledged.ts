import { mm } from '../units/length';
import type { Doubt } from './doubt';
import type { Ladder } from './ladder';

/**
 * Whether a question was asked before and answered "keep": such a question is not raised again.
 *
 * A question about one rung is kept with that rung; one about the whole ladder with any rung of it.
 */
export function isAcknowledged(ladder: Ladder, doubt: Doubt): boolean {
  return ladder.rungs.some(
    (rung) =>
      (doubt.distanceMm === null || mm(rung.distance.nm) === doubt.distanceMm) &&
      (rung.kept?.some((kept) => kept.kind === doubt.kind) ?? false),
  );
}
