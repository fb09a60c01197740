import { mm } from '../units/length';
import { showLength, showLengthWithUnit } from '../units/show-length';
import type { Doubt } from './doubt';
import { DOUBT_LIMITS } from './doubt-limits';
import type { Ladder } from './ladder';
import { possibleSlips, SLIP_WORDS } from './slip';

/**
 * Whether the last rung taped so far climbs or falls more steeply from the one before than a limb does.
 *
 * It has no neighbour on its other side yet, so only the slope speaks: above 1.5 cm per cm, 2 where a joint lies between or beside.
 * A slip that would make it gentle is named. Shape: a ladder, the distance (mm) of the rung; a doubt or undefined.
 * Source: slopes along the limb in ANSUR II 2012, Snyder 1977 and Slack 1997, see `DOUBT_LIMITS`.
 * Example: 11¼ in at 12, 21 1/8 at 13½ in: 6.6 in of girth on 1½ in of length, asked.
 */
export function endRungDoubt(ladder: Ladder, distanceMm: number): Doubt | undefined {
  const taped = ladder.rungs
    .flatMap((rung) => (rung.girth ? [{ atMm: mm(rung.distance.nm) as number, girth: rung.girth }] : []))
    .sort((one, other) => one.atMm - other.atMm);
  const index = taped.findIndex((rung) => rung.atMm === distanceMm);
  const here = taped[index];
  const before = taped[index - 1];
  if (!here || !before || index !== taped.length - 1) return undefined;
  const gap = here.atMm - before.atMm;
  const nearJoint = ladder.limb === 'arm' || ladder.landmarks.some(({ distance }) => Math.abs(mm(distance.nm) - here.atMm) < 80);
  const steepest = nearJoint ? DOUBT_LIMITS.steepestAtJoint.value : DOUBT_LIMITS.steepest.value;
  const gentle = (girthMm: number, limit: number): boolean => Math.abs(girthMm - mm(before.girth.nm)) <= limit * gap;
  if (gentle(mm(here.girth.nm), steepest)) return undefined;
  const slip = possibleSlips(here.girth).find(({ girthMm }) => gentle(girthMm, DOUBT_LIMITS.steepest.value / 2));
  const shown = showLength(mm(here.girth.nm), ladder.unit);
  const place = showLengthWithUnit(here.atMm, ladder.unit);
  const question = slip ? `${place}: ${shown} or ${showLength(slip.girthMm, ladder.unit)}?` : `${place}: ${shown}?`;
  const reason = `The rung before is ${showLength(mm(before.girth.nm), ladder.unit)}.`;
  const message = [question, reason, slip ? (SLIP_WORDS[slip.kind] ?? '') : ''].join(' ').trim();
  return {
    kind: slip?.kind ?? 'neighbours',
    distanceMm,
    message,
    ...(slip ? { wouldFitMm: slip.girthMm } : {}),
  };
}
