import { mm, type TypedLength } from '../units/length';
import { showLengthWithUnit, showTapedLength } from '../units/show-length';
import type { Doubt } from './doubt';
import { DOUBT_LIMITS } from './doubt-limits';
import type { Ladder } from './ladder';
import { possibleSlips, SLIP_WORDS } from './slip';

/** A rung that was taped, at its distance from zero, mm. */
type Taped = { readonly atMm: number; readonly girth: TypedLength };

/**
 * Whether girth changes more steeply between two neighbouring rungs than a limb does: above 1.5 cm per cm, 2 where a joint is near.
 *
 * Example: 28.6 cm and 54 cm on neighbouring rungs 4 cm apart: 6.4 cm a centimetre, too steep.
 */
export function isTooSteep(ladder: Ladder, one: Taped, other: Taped): boolean {
  return Math.abs(mm(one.girth.nm) - mm(other.girth.nm)) > steepestAt(ladder, one) * Math.abs(one.atMm - other.atMm);
}

/**
 * Whether the last rung taped so far climbs or falls more steeply from the one before than a limb does.
 *
 * It has no neighbour on its other side yet, so only the slope speaks. Shape: a ladder, the distance (mm) of the rung; a doubt or
 * undefined. Source: slopes along the limb in ANSUR II 2012, Snyder 1977 and Slack 1997, see `DOUBT_LIMITS`.
 * Example: 11¼ in at 12, 21 1/8 at 13½ in: 9.9 in of girth on 1½ in of length, asked.
 */
export function endRungDoubt(ladder: Ladder, distanceMm: number): Doubt | undefined {
  const taped = ladder.rungs
    .flatMap((rung) => (rung.girth ? [{ atMm: mm(rung.distance.nm) as number, girth: rung.girth }] : []))
    .sort((one, other) => one.atMm - other.atMm);
  const here = taped.at(-1);
  const before = taped.at(-2);
  return here && before && here.atMm === distanceMm && isTooSteep(ladder, here, before) ? askAboutEnd(ladder, here, before) : undefined;
}

/** The question about an end rung that is too steep from its only neighbour, with the slip that would make it gentle if there is one. */
export function askAboutEnd(ladder: Ladder, here: Taped, neighbour: Taped): Doubt {
  const room = (DOUBT_LIMITS.steepest.value / 2) * Math.abs(here.atMm - neighbour.atMm);
  const slip = possibleSlips(here.girth).find(({ girthMm }) => Math.abs(girthMm - mm(neighbour.girth.nm)) <= room);
  const shown = showTapedLength(mm(here.girth.nm), ladder.unit);
  const place = showLengthWithUnit(here.atMm, ladder.unit);
  const question = slip ? `${place}: ${shown} or ${showTapedLength(slip.girthMm, ladder.unit)}?` : `${place}: ${shown}?`;
  const reason = `The rung ${neighbour.atMm < here.atMm ? 'before' : 'after'} is ${showTapedLength(mm(neighbour.girth.nm), ladder.unit)}.`;
  const message = [question, reason, slip ? (SLIP_WORDS[slip.kind] ?? '') : ''].join(' ').trim();
  return { kind: slip?.kind ?? 'neighbours', distanceMm: here.atMm, message, ...(slip ? { wouldFitMm: slip.girthMm } : {}) };
}

function steepestAt(ladder: Ladder, here: Taped): number {
  const nearJoint = ladder.limb === 'arm' || ladder.landmarks.some(({ distance }) => Math.abs(mm(distance.nm) - here.atMm) < 80);
  return nearJoint ? DOUBT_LIMITS.steepestAtJoint.value : DOUBT_LIMITS.steepest.value;
}
