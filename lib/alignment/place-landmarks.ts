import { isLandmarkOf, type LandmarkId, LIMBS, type LimbKind } from '../ladder/limb';
import type { TapedLine } from '../ladder/taped-line';

/** Where a landmark lies on a ladder's upward ruler, how sure that is, and whether it was taped or inferred. */
export type PlacedLandmark = { readonly placeMm: number; readonly sdMm: number; readonly inferred: boolean };

/** One limb at one visit, with every landmark that could be placed on its ruler. */
export type PlacedLine = {
  readonly day: number;
  readonly line: TapedLine;
  readonly landmarks: ReadonlyMap<LandmarkId, PlacedLandmark>;
  /** A zero that is no landmark of the limb, in words, and its SD: two ladders from the same such place can be compared by it. */
  readonly ownZero?: { readonly words: string; readonly sdMm: number };
};

/** What placing needs of a visit: its line, its day number, body height in mm where known, and its zero in words. */
export type LineAtVisit = {
  readonly day: number;
  readonly line: TapedLine;
  readonly bodyHeightMm: number | undefined;
  readonly zero?: string;
};

/** A distance inferred from another visit holds three placements (its two ends there, one here) and a growth model. */
const INFERRED_MODEL_SHARE = 0.02;

/**
 * Each visit's landmarks on its own ruler; a missing one is inferred from the visit nearest in time that has it
 * beside a landmark that both visits share, and is flagged.
 *
 * An adult's distance between landmarks is carried over as it is; a child's is scaled by (H₂/H₁)^k, k of the limb.
 * SD of a taped landmark is the placement SD; of an inferred one √(3σ² + (2 % of the distance)²).
 * Shape: visits in order of time, mm; the same visits with landmarks placed. Invents nothing when no visit helps.
 * Source: engine section 4; length exponents from Snyder 1977 (see `LIMBS`).
 * Example: knee at 280 mm in May; June has only the ankle crease: the adult's knee is inferred at 280 mm.
 */
export function placeLandmarks(visits: readonly LineAtVisit[], limb: LimbKind, growing: boolean, placementMm: number): PlacedLine[] {
  const known = LIMBS[limb].landmarks;
  return visits.map((visit) => {
    const landmarks = new Map<LandmarkId, PlacedLandmark>();
    for (const [landmark, placeMm] of visit.line.landmarks) landmarks.set(landmark, { placeMm, sdMm: placementMm, inferred: false });
    if (landmarks.size > 0 && landmarks.size < known.length) {
      for (const missing of known) {
        if (landmarks.has(missing)) continue;
        const inferred = inferLandmark(missing, visit, visits, limb, growing, placementMm);
        if (inferred) landmarks.set(missing, inferred);
      }
    }
    const ownZero = visit.zero && !isLandmarkOf(limb, visit.zero) ? { words: zeroInWords(visit.zero), sdMm: placementMm } : undefined;
    return { day: visit.day, line: visit.line, landmarks, ...(ownZero ? { ownZero } : {}) };
  });
}

/** `10 cm above the  Patella` and `10 cm above the patella` are one place. */
function zeroInWords(zero: string): string {
  return zero.trim().toLowerCase().replace(/\s+/g, ' ');
}

function inferLandmark(
  missing: LandmarkId,
  visit: LineAtVisit,
  visits: readonly LineAtVisit[],
  limb: LimbKind,
  growing: boolean,
  placementMm: number,
): PlacedLandmark | undefined {
  let nearest: { apart: number; placed: PlacedLandmark } | undefined;
  for (const other of visits) {
    const there = other.line.landmarks.get(missing);
    if (there === undefined) continue;
    const apart = Math.abs(other.day - visit.day);
    if (nearest && nearest.apart <= apart) continue;
    const shared = sharedLandmark(visit.line, other.line);
    if (!shared) continue;
    const distance = (there - shared.there) * lengthFactor(other.bodyHeightMm, visit.bodyHeightMm, limb, growing);
    const sdMm = Math.sqrt(3 * placementMm * placementMm + (INFERRED_MODEL_SHARE * distance) ** 2);
    nearest = { apart, placed: { placeMm: shared.here + distance, sdMm, inferred: true } };
  }
  return nearest?.placed;
}

function sharedLandmark(here: TapedLine, there: TapedLine): { here: number; there: number } | undefined {
  for (const [landmark, placeHere] of here.landmarks) {
    const placeThere = there.landmarks.get(landmark);
    if (placeThere !== undefined) return { here: placeHere, there: placeThere };
  }
  return undefined;
}

/**
 * How much longer a limb segment is expected to be: (H₂/H₁)^k for a growing child, 1 for an adult or an unknown height.
 *
 * Source: Snyder 1977, ln length on ln stature, k = 1.2 leg, 1.1 arm. Example: a leg from 130 to 136.5 cm of height is 1.0603.
 */
export function lengthFactor(
  earlierHeightMm: number | undefined,
  laterHeightMm: number | undefined,
  limb: LimbKind,
  growing: boolean,
): number {
  if (!growing || !earlierHeightMm || !laterHeightMm) return 1;
  return (laterHeightMm / earlierHeightMm) ** LIMBS[limb].lengthExponent;
}
