import { errorFunction } from 'simple-statistics';

/**
 * The centile of a z-score: 100·Φ(z), per cent of the reference below.
 *
 * Source: the standard normal distribution; erf of simple-statistics, good to about 1e-7.
 * Example: z −1.8808 is the 3rd centile; z 0 is the 50th.
 */
export function centileOf(z: number): number {
  return 50 * (1 + errorFunction(z / Math.SQRT2));
}

/**
 * A centile as people say it: `52nd centile`, `below the 1st centile`, `above the 99th centile`.
 *
 * Rounds only here. Example: 52.3 is `52nd centile`; 0.4 is `below the 1st centile`.
 */
export function showCentile(centile: number): string {
  if (centile < 1) return 'below the 1st centile';
  if (centile > 99) return 'above the 99th centile';
  const whole = Math.round(centile);
  return `${whole}${ending(whole)} centile`;
}

function ending(whole: number): string {
  const tens = whole % 100;
  if (tens >= 11 && tens <= 13) return 'th';
  return ['th', 'st', 'nd', 'rd'][whole % 10] ?? 'th';
}
