import type { Reading } from '@/lib/outcome';
import type { LengthUnit, TypedLength } from '@/lib/units/length';
import type { MassUnit, TypedMass } from '@/lib/units/mass';
import { readMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';

/** The made-up staff who tape and type, by their initials. */
export type Hand = 'RA' | 'KD' | 'MT';

const GLYPHS = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'];
const PARTS = ['', '1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'];

/** Eighths of an inch as one of the staff types them: RA `14 3/4`, KD `14-3/4`, MT `14¾`. */
function inches(eighths: number, hand: Hand): string {
  const whole = Math.floor(eighths / 8);
  const part = eighths % 8;
  if (part === 0) return String(whole);
  if (whole === 0) return PARTS[part] ?? '';
  if (hand === 'MT') return `${whole}${GLYPHS[part]}`;
  return `${whole}${hand === 'KD' ? '-' : ' '}${PARTS[part]}`;
}

/** Tenths of a centimetre as typed: MT uses the comma. */
function centimetres(tenths: number, hand: Hand): string {
  const text = tenths % 10 === 0 ? String(tenths / 10) : (tenths / 10).toFixed(1);
  return hand === 'MT' ? text.replace('.', ',') : text;
}

/** A length rounded as the tape is read (⅛ in or 0.1 cm), typed by one of the staff, and read back exactly by the program's own reader. */
export function typedLength(cm: number, unit: LengthUnit, hand: Hand): TypedLength {
  const text = unit === 'in' ? inches(Math.round((cm / 2.54) * 8), hand) : centimetres(Math.round(cm * 10), hand);
  return known(readLength(text, unit), text);
}

/** A height rounded to ¼ in or ½ cm, as a stadiometer is read. */
export function typedHeight(cm: number, unit: LengthUnit, hand: Hand): TypedLength {
  const step = unit === 'in' ? 2.54 / 4 : 0.5;
  return typedLength(Math.round(cm / step) * step, unit, hand);
}

/** A mass rounded to ½ lb or 0.1 kg, as a scale shows it. */
export function typedMass(kilograms: number, unit: MassUnit): TypedMass {
  const rounded = unit === 'lb' ? Math.round((kilograms / 0.45359237) * 2) / 2 : Math.round(kilograms * 10) / 10;
  const text = String(rounded);
  return known(readMass(text, unit), text);
}

/** A length that a story gives in words, `2 cm`. */
export function storyLength(text: string): TypedLength {
  return known(readLength(text, text.endsWith('in') ? 'in' : 'cm'), text);
}

function known<T>(reading: Reading<T>, text: string): T {
  if (reading.kind !== 'read') throw new RangeError(`the demonstration typed “${text}”: ${reading.reason}`);
  return reading.value;
}
