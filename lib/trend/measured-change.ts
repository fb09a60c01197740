import type { Alignment } from '../alignment/align-ladders';
import { placeCovariance } from '../alignment/place-covariance';
import { type SharedSpan, sharedSpan } from '../alignment/shared-span';
import { girthAt } from '../ladder/girth-at';
import type { TapedLine } from '../ladder/taped-line';
import { crossSection } from '../volume/frustum';
import { spanVolume } from '../volume/span-volume';
import type { TapeError } from '../volume/tape-error';
import { readingGain } from '../volume/volume-gradient';

/** A change as a ratio later / earlier, with its variance (of the logarithm) in parts that belong to one limb and to the visit. */
export type Ratio = {
  readonly ratio: number;
  /** Reading and placement: independent between limbs. */
  readonly ownVariance: number;
  /** Tape tension: common to everything taped at the two visits. */
  readonly tensionVariance: number;
};

/** What the tape says of one limb between two visits, over the anatomy that both taped. */
export type MeasuredChange = {
  readonly shared: SharedSpan;
  readonly earlierVolumeMm3: number;
  readonly laterVolumeMm3: number;
  readonly volume: Ratio;
  readonly length: Ratio;
  /** Girth of the cylinder of equal volume and length: growth in length is out of it. */
  readonly girth: Ratio;
};

/**
 * Volume, length and mean girth of the same anatomy at two visits, as ratios with their variances.
 *
 * Volume by frusta on both ladders, the later one over the span that the alignment gives; girth ratio = √((V₂/L₂) / (V₁/L₁)).
 * Variances to first order: reading σ² Σg² / V² of both; tension (2δ)² of both; placement from the knots' covariance, through
 * dV = A_top dz_top − A_bottom dz_bottom. Tension never enters a length.
 * Shape: two taped lines (mm) and their alignment; tension shares of both visits. Undefined when nothing is shared.
 * Source: engine sections 3 to 5; first-order error propagation.
 * Example: every girth 5 % larger at the same places: volume ratio 1.1025, length 1, girth 1.05.
 */
export function measuredChange(
  earlier: TapedLine,
  later: TapedLine,
  alignment: Alignment,
  tape: TapeError,
  tension: number,
): MeasuredChange | undefined {
  const shared = sharedSpan(earlier.placesMm, later.placesMm, alignment);
  if (!shared) return undefined;
  const earlierVolume = spanVolume(earlier.placesMm, earlier.girthsMm, shared.earlier);
  const laterVolume = spanVolume(later.placesMm, later.girthsMm, shared.later);
  if (earlierVolume === undefined || laterVolume === undefined) return undefined;
  const earlierLength = shared.earlier.toMm - shared.earlier.fromMm;
  const laterLength = shared.later.toMm - shared.later.fromMm;
  const reading =
    tape.readingMm ** 2 *
    (readingGain(earlier.placesMm, earlier.girthsMm, shared.earlier) / earlierVolume ** 2 +
      readingGain(later.placesMm, later.girthsMm, shared.later) / laterVolume ** 2);
  const top = crossSection(girthAt(later.placesMm, later.girthsMm, shared.later.toMm) ?? 0);
  const bottom = crossSection(girthAt(later.placesMm, later.girthsMm, shared.later.fromMm) ?? 0);
  const ends = endVariance(alignment, shared);
  const volumePlacement = placed(ends, top / laterVolume, bottom / laterVolume);
  const lengthPlacement = placed(ends, 1 / laterLength, 1 / laterLength);
  const girthPlacement = placed(ends, top / laterVolume - 1 / laterLength, bottom / laterVolume - 1 / laterLength);
  const bothTensions = 2 * tension * tension;
  const volumeRatio = laterVolume / earlierVolume;
  const lengthRatio = laterLength / earlierLength;
  return {
    shared,
    earlierVolumeMm3: earlierVolume,
    laterVolumeMm3: laterVolume,
    volume: { ratio: volumeRatio, ownVariance: reading + volumePlacement, tensionVariance: 4 * bothTensions },
    length: { ratio: lengthRatio, ownVariance: lengthPlacement, tensionVariance: 0 },
    girth: { ratio: Math.sqrt(volumeRatio / lengthRatio), ownVariance: (reading + girthPlacement) / 4, tensionVariance: bothTensions },
  };
}

type EndVariance = { readonly top: number; readonly bottom: number; readonly both: number };

/** Variances and covariance of the later places of the two ends of the shared span, mm². */
function endVariance(alignment: Alignment, { earlier }: SharedSpan): EndVariance {
  return {
    top: placeCovariance(alignment, earlier.toMm, earlier.toMm),
    bottom: placeCovariance(alignment, earlier.fromMm, earlier.fromMm),
    both: placeCovariance(alignment, earlier.toMm, earlier.fromMm),
  };
}

function placed(ends: EndVariance, byTop: number, byBottom: number): number {
  return byTop * byTop * ends.top + byBottom * byBottom * ends.bottom - 2 * byTop * byBottom * ends.both;
}

/**
 * SD of the logarithm of a ratio: root of its own and its tension variance.
 *
 * Example: own variance 0.0001 and tension variance 0.000044: 1.2 %.
 */
export function ratioSd(ratio: Ratio): number {
  return Math.sqrt(ratio.ownVariance + ratio.tensionVariance);
}
