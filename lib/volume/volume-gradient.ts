import { rungBelow } from '../ladder/girth-at';
import { TWELVE_PI } from './frustum';
import type { Span } from './span-volume';

/**
 * How much the volume over a span changes with the girth at each rung: gᵢ = ∂V/∂Cᵢ.
 *
 * Inside an evenly spaced ladder gᵢ = h (Cᵢ₋₁ + 4Cᵢ + Cᵢ₊₁) / 12π; a span that cuts a slice passes its share to both rungs.
 * Because V is homogeneous of degree two in the girths, Σ gᵢCᵢ = 2V exactly.
 * Shape: places rising strictly and girths in mm, a span inside them; one figure a rung, mm³ per mm (mm²).
 * Source: derivative of the frustum sum.
 * Example: girths 100, 100 mm 40 mm apart have gᵢ = 40·300/12π = 318.3 mm² each, and 2·100·318.3 = 2V.
 */
export function volumeGradient(placesMm: readonly number[], girthsMm: readonly number[], span: Span): number[] {
  const gradient = new Array<number>(placesMm.length).fill(0);
  let lower = Math.max(rungBelow(placesMm, span.fromMm), 0);
  for (; lower + 1 < placesMm.length; lower++) {
    const lowerPlace = placesMm[lower] as number;
    if (lowerPlace >= span.toMm) break;
    const gap = (placesMm[lower + 1] as number) - lowerPlace;
    const from = Math.max((span.fromMm - lowerPlace) / gap, 0);
    const to = Math.min((span.toMm - lowerPlace) / gap, 1);
    if (to <= from) continue;
    const lowerGirth = girthsMm[lower] as number;
    const rise = (girthsMm[lower + 1] as number) - lowerGirth;
    const start = lowerGirth + from * rise;
    const end = lowerGirth + to * rise;
    const byStart = ((to - from) * gap * (2 * start + end)) / TWELVE_PI;
    const byEnd = ((to - from) * gap * (start + 2 * end)) / TWELVE_PI;
    gradient[lower] = (gradient[lower] as number) + byStart * (1 - from) + byEnd * (1 - to);
    gradient[lower + 1] = (gradient[lower + 1] as number) + byStart * from + byEnd * to;
  }
  return gradient;
}

/**
 * Σ gᵢ² of a span, mm⁴: the share of one rung's reading variance that reaches the volume.
 *
 * Example: two girths of 300 mm 40 mm apart: each adds 300 × 40 / 4π = 954.9 mm² a millimetre, together 1,823,781 mm⁴.
 */
export function readingGain(placesMm: readonly number[], girthsMm: readonly number[], span: Span): number {
  let sum = 0;
  for (const slope of volumeGradient(placesMm, girthsMm, span)) sum += slope * slope;
  return sum;
}
