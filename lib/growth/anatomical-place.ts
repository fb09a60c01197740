import { type LandmarkId, LIMBS, type LimbKind } from '../ladder/limb';

/**
 * Usual length from the distal to the middle landmark and from there to the proximal one, as shares of body height.
 *
 * Leg: malleolus to mid-patella 0.2365 H, mid-patella to gluteal fold about 0.19 H (ANSUR II 2012; Snyder 1977 for the fold).
 * Arm: wrist to elbow and elbow to axilla share 0.274 H (ANSUR II 2012), halves from memory.
 */
const SEGMENT_SHARES: Readonly<Record<LimbKind, readonly [number, number]>> = { leg: [0.2365, 0.19], arm: [0.145, 0.129] };

/** Body height assumed only to guess where along a limb a rung lies when nothing else is known, mm (adult mean, ANSUR II 2012). */
const UNKNOWN_HEIGHT_MM = 1690;

/**
 * Anatomical place of a rung: 0 at the distal landmark, 1 at the middle, 2 at the proximal one; linear between.
 *
 * Landmarks that are not placed are put at their usual share of body height from one that is; with none placed the ladder's
 * zero is taken for the distal landmark. Good to about a tenth, which is all that exponents need.
 * Shape: places of landmarks (mm), body height (mm) or undefined; a function from mm to place.
 * Example: ankle crease 0, knee 280, fold 590: place 140 mm is 0.5.
 */
export function anatomicalPlace(
  limb: LimbKind,
  landmarkMm: (landmark: LandmarkId) => number | undefined,
  bodyHeightMm: number | undefined,
): (placeMm: number) => number {
  const [distalId, middleId, proximalId] = LIMBS[limb].landmarks;
  const height = bodyHeightMm ?? UNKNOWN_HEIGHT_MM;
  const lower = SEGMENT_SHARES[limb][0] * height;
  const upper = SEGMENT_SHARES[limb][1] * height;
  const proximalMm = landmarkMm(proximalId);
  const distalMm = landmarkMm(distalId);
  const middle = landmarkMm(middleId) ?? middleFrom(distalMm, proximalMm, lower, upper);
  const distal = distalMm ?? middle - lower;
  const proximal = proximalMm ?? middle + upper;
  return (placeMm) => (placeMm <= middle ? (placeMm - distal) / (middle - distal) : 1 + (placeMm - middle) / (proximal - middle));
}

function middleFrom(distalMm: number | undefined, proximalMm: number | undefined, lower: number, upper: number): number {
  if (distalMm !== undefined && proximalMm !== undefined) return distalMm + ((proximalMm - distalMm) * lower) / (lower + upper);
  if (proximalMm !== undefined) return proximalMm - upper;
  return (distalMm ?? 0) + lower;
}

/**
 * How far up a limb an anatomical place lies between its far landmark (0) and its near one (1), by usual lengths.
 *
 * Example: the middle landmark of a leg, place 1, lies 0.2365 / (0.2365 + 0.19) = 0.555 of the way up.
 */
export function usualShareUp(limb: LimbKind, place: number): number {
  const [lower, upper] = SEGMENT_SHARES[limb];
  return (place <= 1 ? place * lower : lower + (place - 1) * upper) / (lower + upper);
}
