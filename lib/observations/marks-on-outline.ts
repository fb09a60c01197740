/** How far up a picture of a limb its rungs and its marks are drawn: 0 at the foot of the picture, 1 at its head. */
export type MarksOnOutline = { readonly rungs: readonly number[]; readonly marks: readonly number[] };

/**
 * Rungs and marks of a limb on one scale, for a ladder that may end short of a landmark or go past it.
 *
 * A mark `along` of the way from the far landmark to the near one lies at height `along × length`; the scale goes from the lowest of the
 * far landmark and the rungs to the highest of the near landmark and the rungs. Undefined where the length is not known or not above 0:
 * a mark has no height then.
 *
 * Shape: marks from 0 to 1; heights of rungs above the far landmark and the length between both landmarks, mm. Cost: linear.
 * Source: definition of a place on a limb (`PlaceOnLimb`).
 * Example: rungs at 0 and 300 mm, landmarks 600 mm apart: a mark at 0.5 is drawn at 0.5, where the highest rung is.
 */
export function marksOnOutline(
  along: readonly number[],
  heightsMm: readonly number[],
  lengthMm: number | undefined,
): MarksOnOutline | undefined {
  if (lengthMm === undefined || !(lengthMm > 0)) return undefined;
  const low = heightsMm.reduce((lowest, height) => Math.min(lowest, height), 0);
  const high = heightsMm.reduce((highest, height) => Math.max(highest, height), lengthMm);
  const share = (heightMm: number) => (heightMm - low) / (high - low);
  return { rungs: heightsMm.map(share), marks: along.map((one) => share(one * lengthMm)) };
}
