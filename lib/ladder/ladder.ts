import type { LengthUnit, TypedLength } from '../units/length';
import type { LandmarkId, LimbKind, Side } from './limb';

/** A doubt that was asked about and answered "keep": which question, the name of who kept it, and the moment in ISO 8601 with its zone. */
export type KeptDoubt = { readonly kind: string; readonly by: string; readonly at: string };

/** One place on a ladder: distance from zero, and the girth there or null where none was taped; `again` is a second taping of it. */
export type Rung = {
  readonly distance: TypedLength;
  readonly girth: TypedLength | null;
  readonly again?: TypedLength;
  readonly note?: string;
  readonly kept?: readonly KeptDoubt[];
};

/** Where a landmark lies on the ladder's own ruler. */
export type LandmarkReading = { readonly landmark: LandmarkId; readonly distance: TypedLength };

/**
 * What a therapist chose when the zero of a ladder looked moved: to read it as recorded, or with the zero so far (mm) towards the trunk
 * of its landmark. Figures stay as taped; only the places they are read at move.
 */
export type ZeroChoice = {
  readonly choice: 'as-recorded' | 'moved-back';
  readonly shiftMm: number;
  readonly by: string;
  readonly at: string;
};

/**
 * The girths of one limb at one visit, taped from a zero in one direction.
 *
 * `zero` is a landmark of the limb or, for a segment ladder, any other place in words.
 * `direction` is `up` towards the trunk, `down` away from it; distances count from zero in that direction.
 * The last interval may be odd: each rung carries its own distance, and nothing is forced onto a grid.
 * `floorToFold` is the height of the gluteal fold above the floor (legs only).
 */
export type Ladder = {
  readonly limb: LimbKind;
  readonly side: Side;
  readonly zero: string;
  readonly direction: 'up' | 'down';
  readonly unit: LengthUnit;
  readonly rungs: readonly Rung[];
  readonly landmarks: readonly LandmarkReading[];
  readonly floorToFold: TypedLength | null;
  readonly zeroChoice?: ZeroChoice | null;
};
