import type { LimbKind } from '@/lib/ladder/limb';

/** A dense limb: girth (mm) at any place above the distal landmark, and where the landmarks lie. */
export type LimbShape = {
  readonly body: string;
  readonly limb: LimbKind;
  readonly middleMm: number;
  readonly proximalMm: number;
  readonly girthMm: (placeMm: number) => number;
};
