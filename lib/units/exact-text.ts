import { type LengthUnit, NANOMETRES_IN, type Nanometres } from './length';

/**
 * An exact length written so that it reads back as itself: `4 1/2`, `23 3/8`, `3.81`.
 *
 * Inches in the largest tape part that is exact (halves to 64ths), else in decimals; centimetres in decimals. Six decimals at most;
 * what needs more is rounded there (a tenth of a micrometre).
 * Example: 114,300,000 nm is `4 1/2` in inches and `11.43` in centimetres.
 */
export function exactText(nm: Nanometres | number, unit: LengthUnit): string {
  const per = Number(NANOMETRES_IN[unit]);
  const whole = Math.floor(nm / per);
  const rest = nm - whole * per;
  if (rest === 0) return String(whole);
  if (unit === 'in') {
    for (const parts of [2, 4, 8, 16, 32, 64]) {
      if ((rest * parts) % per === 0) return `${whole === 0 ? '' : `${whole} `}${(rest * parts) / per}/${parts}`;
    }
  }
  return (nm / per).toFixed(6).replace(/0+$/, '');
}
