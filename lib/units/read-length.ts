import { type Reading, read, refused } from '../outcome';
import { type Fraction, fraction, sumOf, wholeUnits } from './fraction';
import { asNanometres, type LengthUnit, NANOMETRES_IN, type TypedLength } from './length';
import { readNumber, tooLongForFigure } from './read-number';

const SUFFIXES: readonly [RegExp, LengthUnit | 'mm' | 'm'][] = [
  [/\s*(?:inches|inch|ins|in)\.?$/i, 'in'],
  [/\s*(?:"|″|”|'')$/, 'in'],
  [/\s*cms?\.?$/i, 'cm'],
  [/\s*mms?\.?$/i, 'mm'],
  [/\s*(?:metres?|meters?|m)\.?$/i, 'm'],
];
const FEET = /^(\d+)\s*(?:feet|foot|ft\.?|'|′|’)\s*(.*)$/i;

/**
 * The exact length a person typed, in the unit of its own suffix or else the unit of the sheet.
 *
 * Shape: text and the sheet's unit in; `TypedLength` (text kept, exact nanometres) out.
 * A suffix of the other system is refused on a sheet (`strict`), because a sheet holds one unit; feet and inches are read for heights only: a stroke after a figure is a slip on a ladder.
 * Refuses what `readNumber` refuses, a length of zero, and a part finer than a nanometre.
 * Source: 1 in = 25.4 mm exactly (international yard and pound, 1959); 1 ft = 12 in.
 * Example: `readLength('14 3/4', 'in')` is 374,650,000 nm; `readLength('37,5', 'cm')` is 375,000,000 nm.
 */
export function readLength(typed: string, sheetUnit: LengthUnit, strict = false): Reading<TypedLength> {
  const tooLong = tooLongForFigure(typed);
  if (tooLong) return refused(tooLong);
  const text = typed.trim();
  const feet = FEET.exec(text);
  if (feet && strict) return refused(`“${text}” is in feet. On a ladder type ${nameOf(sheetUnit)} alone.`);
  if (feet) return readFeet(typed, feet[1] ?? '', feet[2] ?? '');
  const suffix = SUFFIXES.find(([pattern]) => pattern.test(text));
  const unit = suffix?.[1] ?? sheetUnit;
  const system: LengthUnit = unit === 'in' ? 'in' : 'cm';
  if (strict && suffix && unit !== sheetUnit) {
    return refused(
      `“${text}” is marked ${unit}, and this sheet is in ${nameOf(sheetUnit)}. Change the sheet’s unit or type the figure in ${nameOf(sheetUnit)}.`,
    );
  }
  const number = readNumber(suffix ? text.replace(suffix[0], '') : text);
  if (number.kind !== 'read') return number;
  return exactLength(typed, number.value, unit, system);
}

function readFeet(typed: string, feet: string, rest: string): Reading<TypedLength> {
  if (feet.length > 2) return refused(`“${typed.trim()}” is too large to be measured.`);
  const inches = rest === '' ? read(fraction(0n, 1n)) : readNumber(rest.replace(/\s*(?:inches|inch|in\.?|"|″|”|'')$/i, ''));
  if (inches.kind !== 'read') return inches;
  if (inches.value.numerator >= 12n * inches.value.denominator)
    return refused(`“${typed.trim()}” has twelve inches or more beside its feet.`);
  return exactLength(typed, sumOf(fraction(BigInt(feet) * 12n, 1n), inches.value), 'in', 'in');
}

function exactLength(typed: string, value: Fraction, unit: LengthUnit | 'mm' | 'm', system: LengthUnit): Reading<TypedLength> {
  const nm = wholeUnits(value, NANOMETRES_IN[unit]);
  if (nm === undefined) return refused(`“${typed.trim()}” is finer than any tape.`);
  if (nm === 0) return refused('A length of 0 is not a reading. Leave the place empty if it was not measured.');
  return read({ text: typed.trim(), unit: system, nm: asNanometres(nm) });
}

/** A unit's name in a sentence. */
export function nameOf(unit: LengthUnit): string {
  return unit === 'in' ? 'inches' : 'centimetres';
}
