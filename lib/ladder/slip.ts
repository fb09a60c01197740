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
  const perUnit = Number(NANOMETRES_IN[typed.unit]);
  return slipsOfFigure(typed.text, inUnit(typed.nm / 1e6, typed.unit), 2.54).map(({ kind, value }) => ({
    kind,
    girthMm: Math.round(value * perUnit) / 1e6,
  }));
}

/** A usual slip that would turn one figure into another, in the figure's own unit. */
export type FigureSlip = { readonly kind: DoubtKind; readonly value: number };

/**
 * The same for any figure of a tape, a measuring board or a scale.
 *
 * Shape: the text as typed, its value in its own unit, and how many of the smaller of the two units go into the larger; corrected values
 * in the unit of the figure. Example: `182` cm may have been 128, 812, 18.2, 112, 122, 132 … cm.
 */
export function slipsOfFigure(text: string, value: number, unitRatio: number): FigureSlip[] {
  const slips: FigureSlip[] = [];
  for (const factor of [10, 0.1]) slips.push({ kind: 'times-ten', value: value * factor });
  for (const factor of [unitRatio, 1 / unitRatio]) slips.push({ kind: 'inch-centimetre', value: value * factor });
  for (const swapped of swappedDigits(text, value)) slips.push({ kind: 'swapped-digits', value: swapped });
  const whole = wholePart(value);
  for (let tens = 0; tens <= 9; tens++) {
    slips.push({ kind: 'tens-digit', value: value - whole + (whole % 10) + tens * 10 + Math.floor(whole / 100) * 100 });
  }
  return slips.filter((slip) => slip.value > 1e-9 && Math.abs(slip.value - value) > 1e-9);
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

/**
 * Text for a girth that is put in place of a slip: exact where the tape can show it, else to the tape's step (⅛ in, 0.1 cm).
 * Example: 230 mm in inches → `9`; 231 mm in centimetres → `23.1`.
 */
export function slipText(girthMm: number, unit: LengthUnit): string {
  const text = exactText(Math.round(girthMm * 1e6), unit);
  if (unit === 'cm' ? /^\d+(\.\d\d?)?$/.test(text) : !text.includes('.')) return text;
  const steps = unit === 'cm' ? 10 : 8;
  const step = Number(NANOMETRES_IN[unit]) / steps;
  return exactText(Math.round((girthMm * 1e6) / step) * step, unit);
}

function wholePart(value: number): number {
  return Math.floor(value + 1e-9);
}

/** Every value that two neighbouring digits changed round would give. Example: 21 gives 12; 34.6 gives 43.6 and 36.4. */
function swappedDigits(text: string, value: number): number[] {
  const decimal = /^(\d+)[.,](\d+)$/.exec(text.replace(/\s*[a-z"″]+\.?$/i, ''));
  const whole = wholePart(value);
  if (!decimal) return swaps(String(whole)).map((digits) => value - whole + Number(digits));
  const [, before = '', after = ''] = decimal;
  return swaps(before + after)
    .filter((digits) => digits.slice(0, before.length) !== before)
    .map((digits) => Number(`${digits.slice(0, before.length)}.${digits.slice(before.length)}`));
}

function swaps(digits: string): string[] {
  const swapped: string[] = [];
  for (let at = 0; at + 1 < digits.length; at++) {
    if (digits[at] === digits[at + 1]) continue;
    swapped.push(digits.slice(0, at) + digits[at + 1] + digits[at] + digits.slice(at + 2));
  }
  return swapped;
}
