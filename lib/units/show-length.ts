import { inUnit, type LengthUnit } from './length';

const EIGHTHS = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'];
const SIXTEENTHS: Record<number, string> = { 1: '1⁄16', 3: '3⁄16', 5: '5⁄16', 7: '7⁄16', 9: '9⁄16', 11: '11⁄16', 13: '13⁄16', 15: '15⁄16' };

/** Keeps a whole number off the fraction after it, which is written in figures: a no-break thin space, in copied and spoken text too. */
const APART = '\u202f';

/** A length cut into what a column of figures needs: the whole part, the fraction, and the sign. */
export type ShownLength = { readonly sign: '' | '−'; readonly whole: string; readonly part: string };

/**
 * A length as a tape shows it, without its unit: nearest 1/8 in (or 1/16), or nearest 0.1 cm.
 *
 * Rounds only for showing; storage keeps the text as typed. Common practice of tapes. A sixteenth has no sign of its own in Unicode and is
 * written in figures, set apart from the whole number, so that 23 3⁄16 is never seen, copied or read aloud as 233⁄16.
 * Example: 197.0 mm is `7¾` in inches and `19.7` in centimetres; 23 3/16 in is `23 3⁄16` and reads back as itself.
 */
export function showLength(lengthMm: number, unit: LengthUnit, parts: 8 | 16 = 8): string {
  const shown = shownLength(lengthMm, unit, parts);
  const between = shown.whole !== '' && shown.part.length > 1 ? APART : '';
  return shown.sign + (shown.whole + between + shown.part || '0');
}

/** The same length with its unit and a thin space: `7¾ in`, `19.7 cm`. */
export function showLengthWithUnit(lengthMm: number, unit: LengthUnit, parts: 8 | 16 = 8): string {
  return `${showLength(lengthMm, unit, parts)}\u202f${unit}`;
}

/** The same length in pieces, so that whole figures and fractions line up in a column. */
function shownLength(lengthMm: number, unit: LengthUnit, parts: 8 | 16 = 8): ShownLength {
  const inOwnUnit = inUnit(Math.abs(lengthMm), unit);
  if (unit === 'cm') {
    const tenths = Math.round(inOwnUnit * 10);
    return { sign: lengthMm < 0 && tenths > 0 ? '−' : '', whole: `${Math.floor(tenths / 10)}.${tenths % 10}`, part: '' };
  }
  const steps = Math.round(inOwnUnit * parts);
  const whole = Math.floor(steps / parts);
  const sixteenths = ((steps % parts) * 16) / parts;
  const part = sixteenths % 2 === 0 ? (EIGHTHS[sixteenths / 2] ?? '') : (SIXTEENTHS[sixteenths] ?? '');
  return { sign: lengthMm < 0 && steps > 0 ? '−' : '', whole: whole === 0 && part !== '' ? '' : String(whole), part };
}

/**
 * How a typed girth was read, both units: `7¾ in · 19.7 cm`. Inches are to the sixteenth on either side, as on the printed order: 26.8 cm is
 * 10 9⁄16 in everywhere.
 */
export function echoLength(lengthMm: number, unit: LengthUnit): string {
  const other: LengthUnit = unit === 'in' ? 'cm' : 'in';
  return `${showLengthWithUnit(lengthMm, unit, 16)} · ${showLengthWithUnit(lengthMm, other, 16)}`;
}

/** A sixteenth of an inch, mm, and how near to one a length that was typed to it lies after its arithmetic. */
const SIXTEENTH_MM = 25.4 / 16;
const SAME_MM = 0.001;

/** A length that may have been typed to the sixteenth: then so, else to the eighth. Example: 10 9/16 in typed is `10 9⁄16`, 268 mm worked out `10½`. */
export function showTapedLength(lengthMm: number, unit: LengthUnit): string {
  const steps = lengthMm / SIXTEENTH_MM;
  const isTyped = Math.abs(steps - Math.round(steps)) * SIXTEENTH_MM < SAME_MM;
  return showLength(lengthMm, unit, isTyped ? 16 : 8);
}

/** A signed difference of two lengths: `+⅛`, `−1.2`, or `same` when it rounds to nothing. */
export function showLengthChange(differenceMm: number, unit: LengthUnit): string {
  const text = showLength(Math.abs(differenceMm), unit);
  if (text === '0' || text === '0.0') return 'same';
  return (differenceMm < 0 ? '−' : '+') + text;
}
