import { girthAt } from '../ladder/girth-at';
import { crossSection } from './frustum';
import type { Span } from './span-volume';
import { readingGain } from './volume-gradient';

/** How far a tape can be trusted. Every figure is a clinic setting; `DEFAULT_TAPE_ERROR` says where each comes from. */
export type TapeError = {
  /** SD of one girth reading, mm, independent from rung to rung. */
  readonly readingMm: number;
  /** SD of tape tension as a share of girth, common to one visit: the same measurer as the visit compared with. */
  readonly tensionSameMeasurer: number;
  /** The same for another or an unknown measurer. */
  readonly tensionOtherMeasurer: number;
  /** SD of where zero or a landmark is put, mm. */
  readonly placementMm: number;
};

/**
 * Defaults until a clinic has ten or more repeat tapings of its own.
 *
 * Reading 0.3 cm: girth SD 0.2–0.5 cm by the same measurer (from memory of anthropometry manuals).
 * Tension 0.4 % and 1.0 %: chosen so that leg volume has an SEM of about 1.3 % by one measurer and 2.5 % by two
 * (test–retest 1.2–1.4 %, Lymphat Res Biol 2022, doi 10.1089/lrb.2022.0032; intra better than inter, Deltombe 2007).
 * Placement 0.5 cm: clinic default.
 */
export const DEFAULT_TAPE_ERROR: TapeError = { readingMm: 3, tensionSameMeasurer: 0.004, tensionOtherMeasurer: 0.01, placementMm: 5 };

/** The parts of a volume's variance, each as a share of the volume squared (variance of ln V). */
export type VolumeVariance = { readonly reading: number; readonly tension: number; readonly placement: number };

/**
 * Variance of ln V over a span, in its three parts.
 *
 * reading = σ² Σgᵢ² / V²; tension = (2δ)²; placement = ((A_top − A_bottom) σ_p)² / V², the whole ladder sliding on its zero.
 * Shape: places and girths in mm, a span inside them, its volume in mm³; shares without unit.
 * Source: first-order error propagation of the frustum sum.
 * Example: a cylinder has no placement part, because both end areas are equal.
 */
export function volumeVariance(
  placesMm: readonly number[],
  girthsMm: readonly number[],
  span: Span,
  volumeMm3: number,
  tape: TapeError,
  tension: number,
): VolumeVariance {
  const top = crossSection(girthAt(placesMm, girthsMm, span.toMm) ?? 0);
  const bottom = crossSection(girthAt(placesMm, girthsMm, span.fromMm) ?? 0);
  const squared = volumeMm3 * volumeMm3;
  return {
    reading: (tape.readingMm * tape.readingMm * readingGain(placesMm, girthsMm, span)) / squared,
    tension: 4 * tension * tension,
    placement: ((top - bottom) * tape.placementMm) ** 2 / squared,
  };
}

/**
 * SD of a volume as a share of it: the root of the three parts together.
 *
 * Example: variances of 1 %, 0.8 % and 0.6 % squared: 1.41 %.
 */
export function relativeSd(variance: VolumeVariance): number {
  return Math.sqrt(variance.reading + variance.tension + variance.placement);
}
