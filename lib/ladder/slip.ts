import { exactText } from '../units/exact-text';
import { inUnit, type LengthUnit, NANOMETRES_IN, type TypedLength } from '../units/length';
import type { DoubtKind } from './doubt';

/** A usual slip of the hand that would turn the figure that fits into the figure that was typed. */
export type Slip = { readonly kind: DoubtKind; readonly girthMm: number };

/**
 * Every figure that a usual slip of the hand may have turned into the one typed.
 *
 * In order: ten times or a tenth, the other unit (× or ÷ 2.54), two neighbouring digits swapped (in the whole part, and across the
 * mark of a decimal), one wrong tens digit.
 * Shape: the typed girth; corrected girths in mm, each above zero and other than the one typed.
 * Source: slips seen in Slack 1997 (wrong tens digits, swapped digits); out-by-ten slips, Thimbleby and Cairns 2010.
 * Example: `21 1/8` in may have been 2.1125, 211¼, 8.317, 53.66, 12⅛, 1⅛, 11⅛, 31⅛ … in.
 */
export function possibleSlips(typed: TypedLength): Slip[] {
  const girthMm = typed.nm / 1e6;
  const slips: Slip[] = [];
  for (const factor of [10, 0.1]) slips.push({ kind: 'times-ten', girthMm: girthMm * factor });
  for (const factor of [2.54, 1 / 2.54]) slips.push({ kind: 'inch-centimetre', girthMm: girthMm * factor });
  for (const girth of swappedDigits(typed)) slips.push({ kind: 'swapped-digits', girthMm: girth });
  const whole = wholePart(typed);
  for (let tens = 0; tens <= 9; tens++) {
    const candidate = withWhole(typed, (whole % 10) + tens * 10 + Math.floor(whole / 100) * 100);
    slips.push({ kind: 'tens-digit', girthMm: candidate });
  }
  return slips.filter((slip) => slip.girthMm > 0 && slip.girthMm !== girthMm);
}

/**
 * The slip, if any, that explains an odd girth: the first whose correction lies within `closeness` of what is expected.
 *
 * Shape: the typed girth, the expected girth in mm, a share; a corrected girth in mm.
 * Example: `21 1/8` in where about 12 in is expected: digits swapped, 12 1/8 in.
 */
export function usualSlip(typed: TypedLength, expectedMm: number, closeness: number): Slip | undefined {
  return possibleSlips(typed).find((slip) => Math.abs(slip.girthMm / expectedMm - 1) <= closeness);
}

/** What a slip does, in words, after the sentences that make the figure odd. */
export const SLIP_WORDS: Partial<Record<DoubtKind, string>> = {
  'swapped-digits': 'With the two digits swapped it would fit.',
  'tens-digit': 'With another tens digit it would fit.',
  'times-ten': 'With the decimal mark moved it would fit.',
  'inch-centimetre': 'Read in the other unit it would fit.',
};

/** Text for a girth that is put in place of a slip: exact where the tape can show it, else to the tape's step (⅛ in, 0.1 cm). */
export function slipText(girthMm: number, unit: LengthUnit): string {
  const text = exactText(Math.round(girthMm * 1e6), unit);
  if (unit === 'cm' ? /^\d+(\.\d\d?)?$/.test(text) : !text.includes('.')) return text;
  const steps = unit === 'cm' ? 10 : 8;
  const step = Number(NANOMETRES_IN[unit]) / steps;
  return exactText(Math.round((girthMm * 1e6) / step) * step, unit);
}

function wholePart(typed: TypedLength): number {
  return Math.floor(inUnit(typed.nm / 1e6, typed.unit) + 1e-9);
}

function withWhole(typed: TypedLength, whole: number): number {
  const perUnit = Number(NANOMETRES_IN[typed.unit]);
  return (typed.nm - wholePart(typed) * perUnit + whole * perUnit) / 1e6;
}

/** Every girth, mm, that two neighbouring digits changed round would give. Example: 21 gives 12; 34.6 gives 43.6 and 36.4. */
function swappedDigits(typed: TypedLength): number[] {
  const decimal = /^(\d+)[.,](\d+)$/.exec(typed.text.replace(/\s*[a-z"″]+\.?$/i, ''));
  const whole = String(wholePart(typed));
  if (!decimal) return swaps(whole).map((digits) => withWhole(typed, Number(digits)));
  const decimals = decimal[2] ?? '';
  const perUnit = Number(NANOMETRES_IN[typed.unit]);
  const cut = decimal[1]?.length ?? 0;
  return swaps((decimal[1] ?? '') + decimals)
    .filter((digits) => digits.slice(0, cut) !== decimal[1])
    .map((digits) => (Number(`${digits.slice(0, cut)}.${digits.slice(cut)}`) * perUnit) / 1e6);
}

function swaps(digits: string): string[] {
  const swapped: string[] = [];
  for (let at = 0; at + 1 < digits.length; at++) {
    if (digits[at] === digits[at + 1]) continue;
    swapped.push(digits.slice(0, at) + digits[at + 1] + digits[at] + digits.slice(at + 2));
  }
  return swapped;
}
