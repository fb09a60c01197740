import type { Lms } from './lms-table';

/** Below this size of L the formula turns into its limit, the logarithm. Source: CDC's own program for the 2000 charts. */
const LOGARITHM_BELOW = 0.01;

/** Beyond so many SD the WHO rule goes on in straight steps. Source: WHO Child Growth Standards 2006, methods and development. */
const RESTRICTED_BEYOND = 3;

/**
 * The z-score of a value: z = ((y/M)^L − 1) / (L·S), or ln(y/M)/S where |L| < 0.01.
 *
 * Shape: L, M, S and a value in the table's unit, above zero. Source: Cole and Green 1992, Stat Med 11:1305; Kuczmarski 2002.
 * Example: L 1, M 87.1303, S 0.03508 (boys, day 731) and 93.243 cm give +2.
 */
export function plainZ({ l, m, s }: Lms, value: number): number {
  if (Math.abs(l) < LOGARITHM_BELOW) return Math.log(value / m) / s;
  return ((value / m) ** l - 1) / (l * s);
}

/**
 * The value at a z-score: y = M·(1 + L·S·z)^(1/L), or M·exp(S·z) where |L| < 0.01.
 *
 * Refuses (undefined) a z-score where 1 + L·S·z is not above zero: no value has it.
 * Source and example: as `plainZ`, the other way round.
 */
export function plainValue({ l, m, s }: Lms, z: number): number | undefined {
  if (Math.abs(l) < LOGARITHM_BELOW) return m * Math.exp(s * z);
  const base = 1 + l * s * z;
  return base > 0 ? m * base ** (1 / l) : undefined;
}

/**
 * The z-score by WHO's restricted rule: beyond ±3 every further z is one step as wide as the step from 2 to 3 SD.
 *
 * z = 3 + (y − SD3)/(SD3 − SD2) above, z = −3 + (y − SD−3)/(SD−2 − SD−3) below.
 * For weight and BMI only, never for height. Source: WHO Child Growth Standards 2006, methods and development.
 * Example: a boy of 365 days and 15 kg has +4.22; the plain formula gives +4.10.
 */
export function restrictedZ(lms: Lms, value: number): number {
  const z = plainZ(lms, value);
  if (Math.abs(z) <= RESTRICTED_BEYOND) return z;
  const side = Math.sign(z);
  const three = plainValue(lms, side * 3);
  const two = plainValue(lms, side * 2);
  if (three === undefined || two === undefined) return z;
  return side * (3 + (value - three) / (three - two));
}

/**
 * The value at a z-score by WHO's restricted rule; the other way round of `restrictedZ`. Undefined at or below zero.
 *
 * Example: z = 3.5 where 2 and 3 stand at 20 and 22 kg: 23 kg.
 */
export function restrictedValue(lms: Lms, z: number): number | undefined {
  if (Math.abs(z) <= RESTRICTED_BEYOND) return plainValue(lms, z);
  const side = Math.sign(z);
  const three = plainValue(lms, side * 3);
  const two = plainValue(lms, side * 2);
  if (three === undefined || two === undefined) return undefined;
  const value = three + (Math.abs(z) - 3) * (three - two);
  return value > 0 ? value : undefined;
}
