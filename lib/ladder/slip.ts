import { asNanometres, inUnit, type LengthUnit, NANOMETRES_IN, type TypedLength } from '../units/length';
import type { DoubtKind } from './doubt';

/** A usual slip of the hand that would turn the figure that fits into the figure that was typed. */
export type Slip = { readonly kind: DoubtKind; readonly girthMm: number };

/**
 * The slip, if any, that explains an odd girth: what it would have been instead.
 *
 * Tried in order: ten times or a tenth, the other unit (× or ÷ 2.54), two neighbouring digits of the whole part swapped, one wrong
 * tens digit. A slip explains the figure when its correction lies within `closeness` of what is expected.
 * Shape: the typed girth, the expected girth in mm, a share; a corrected girth in mm.
 * Source: slips seen in Slack 1997 (wrong tens digits, swapped digits); out-by-ten slips, Thimbleby and Cairns 2010.
 * Example: `21 1/8` in where about 12 in is expected: digits swapped, 12 1/8 in.
 */
export function usualSlip(typed: TypedLength, expectedMm: number, closeness: number): Slip | undefined {
  const girthMm = typed.nm / 1e6;
  const fits = (candidateMm: number): boolean => Math.abs(candidateMm / expectedMm - 1) <= closeness;
  for (const factor of [10, 0.1]) if (fits(girthMm * factor)) return { kind: 'times-ten', girthMm: girthMm * factor };
  for (const factor of [2.54, 1 / 2.54]) if (fits(girthMm * factor)) return { kind: 'inch-centimetre', girthMm: girthMm * factor };
  for (const whole of swappedWholes(wholePart(typed))) {
    const candidate = withWhole(typed, whole);
    if (fits(candidate)) return { kind: 'swapped-digits', girthMm: candidate };
  }
  const whole = wholePart(typed);
  for (let tens = 0; tens <= 9; tens++) {
    const candidate = withWhole(typed, (whole % 10) + tens * 10 + Math.floor(whole / 100) * 100);
    if (candidate !== girthMm && fits(candidate)) return { kind: 'tens-digit', girthMm: candidate };
  }
  return undefined;
}

function wholePart(typed: TypedLength): number {
  return Math.floor(inUnit(typed.nm / 1e6, typed.unit) + 1e-9);
}

function withWhole(typed: TypedLength, whole: number): number {
  const perUnit = Number(NANOMETRES_IN[typed.unit]);
  return (typed.nm - wholePart(typed) * perUnit + whole * perUnit) / 1e6;
}

/** Every figure that two neighbouring digits of `whole`, changed round, would give. Example: 21 gives 12. */
function swappedWholes(whole: number): number[] {
  const digits = String(whole);
  const swapped: number[] = [];
  for (let at = 0; at + 1 < digits.length; at++) {
    if (digits[at] === digits[at + 1]) continue;
    swapped.push(Number(digits.slice(0, at) + digits[at + 1] + digits[at] + digits.slice(at + 2)));
  }
  return swapped;
}

/** A girth in mm as a typed length in the sheet's unit, for a slip that a therapist accepts. */
export function typedAs(girthMm: number, text: string, unit: LengthUnit): TypedLength {
  return { text, unit, nm: asNanometres(Math.round(girthMm * 1e6)) };
}
