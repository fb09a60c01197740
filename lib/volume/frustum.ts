/** 12π, the divisor of the frustum formula in girths. */
export const TWELVE_PI = 12 * Math.PI;

/**
 * Volume of a slice of limb taken as a truncated cone: V = h (C₁² + C₁C₂ + C₂²) / 12π.
 *
 * Shape: height and both end girths in mm; cubic millimetres out. A height of 0 has a volume of 0.
 * Source: geometry of the circular frustum, with r = C / 2π.
 * Example: girths of 100π mm (radius 50 mm) 40 mm apart give 100,000π = 314,159.27 mm³.
 */
export function frustum(heightMm: number, lowerGirthMm: number, upperGirthMm: number): number {
  return (heightMm * (lowerGirthMm * lowerGirthMm + lowerGirthMm * upperGirthMm + upperGirthMm * upperGirthMm)) / TWELVE_PI;
}

/**
 * Area of the circle with a given girth: A = C² / 4π.
 *
 * Shape: girth in mm, square millimetres out. Example: a girth of 100π mm encloses 2,500π = 7,853.98 mm².
 */
export function crossSection(girthMm: number): number {
  return (girthMm * girthMm) / (4 * Math.PI);
}

/**
 * Girth of the cylinder with the same volume and length: C = √(4πV / L).
 *
 * Shape: volume in mm³, length in mm above 0; girth in mm. Example: 314,159.27 mm³ over 40 mm is 314.159 mm.
 */
export function equivalentGirth(volumeMm3: number, lengthMm: number): number {
  return Math.sqrt((4 * Math.PI * volumeMm3) / lengthMm);
}
