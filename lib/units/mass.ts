import { type Reading, read, refused } from '../outcome';
import { fraction, sumOf, wholeUnits } from './fraction';
import { readNumber, tooLongForFigure } from './read-number';

/** A mass in kilograms, for arithmetic. */
export type Kilograms = number & { readonly unit: 'kg' };

/** The units a scale is read in. */
export type MassUnit = 'kg' | 'lb';

/** A mass as a person wrote it beside the exact mass, a whole number of nanograms (1/16 lb is whole). */
export type TypedMass = { readonly text: string; readonly unit: MassUnit; readonly ng: number };

/** Nanograms in one unit. 1 lb = 0.45359237 kg exactly (international yard and pound, 1959). */
export const NANOGRAMS_IN: Readonly<Record<MassUnit, bigint>> = { kg: 1_000_000_000_000n, lb: 453_592_370_000n };

const KILOGRAMS = /\s*(?:kgs?|kilos?|kilograms?)\.?$/i;
const POUNDS = /\s*(?:lbs?|pounds?)\.?$/i;
const POUNDS_AND_OUNCES = /^(.*?)\s*(?:lbs?|pounds?)\.?\s*(.+?)\s*(?:oz|ounces?)\.?$/i;

/**
 * The exact mass a person typed, in the unit of its own suffix or else the unit of the sheet.
 *
 * Shape: text and a unit in; `TypedMass` out. Reads `80.5`, `42 3/4 lb`, `36,5 kg`, `80 lb 8 oz`.
 * Refuses what `readNumber` refuses and a mass of zero.
 * Source: 1 lb = 0.45359237 kg exactly (1959); 16 oz = 1 lb.
 * Example: `readMass('42 3/4 lb', 'kg')` is 19.3910738175 kg.
 */
export function readMass(typed: string, sheetUnit: MassUnit): Reading<TypedMass> {
  const tooLong = tooLongForFigure(typed);
  if (tooLong) return refused(tooLong);
  const text = typed.trim();
  const both = POUNDS_AND_OUNCES.exec(text);
  if (both) return readPoundsAndOunces(text, both[1] ?? '', both[2] ?? '');
  const unit: MassUnit = KILOGRAMS.test(text) ? 'kg' : POUNDS.test(text) ? 'lb' : sheetUnit;
  const number = readNumber(text.replace(KILOGRAMS, '').replace(POUNDS, ''));
  if (number.kind !== 'read') return number;
  return exactMass(text, wholeUnits(number.value, NANOGRAMS_IN[unit]), unit);
}

function readPoundsAndOunces(text: string, poundsText: string, ouncesText: string): Reading<TypedMass> {
  const pounds = readNumber(poundsText);
  if (pounds.kind !== 'read') return pounds;
  const ounces = readNumber(ouncesText);
  if (ounces.kind !== 'read') return ounces;
  if (ounces.value.numerator >= 16n * ounces.value.denominator) return refused(`“${text}” has sixteen ounces or more beside its pounds.`);
  const parts = fraction(ounces.value.numerator, ounces.value.denominator * 16n);
  return exactMass(text, wholeUnits(sumOf(pounds.value, parts), NANOGRAMS_IN.lb), 'lb');
}

function exactMass(text: string, ng: number | undefined, unit: MassUnit): Reading<TypedMass> {
  if (ng === undefined) return refused(`“${text}” cannot be kept exactly: type whole ounces, decimals of a pound, or kilograms.`);
  if (ng === 0) return refused('A weight of 0 is not a reading. Leave it empty if nobody was weighed.');
  return read({ text, unit, ng });
}

/** An exact mass as kilograms. Floats begin here. Example: 19,391,073,817,500 ng is 19.3910738175 kg. */
export function kg(mass: TypedMass): Kilograms {
  return (mass.ng / 1e12) as Kilograms;
}

/** Kilograms shown in a scale's unit to one decimal, with its unit: `80.5 lb`. */
export function showMass(massKg: number, unit: MassUnit): string {
  const value = unit === 'kg' ? massKg : (massKg * 1e12) / Number(NANOGRAMS_IN.lb);
  return `${value.toFixed(1)}\u202f${unit}`;
}

/** How a typed mass was read, both units: `163.1 lb · 74.0 kg`. */
export function echoMass(mass: TypedMass): string {
  const other: MassUnit = mass.unit === 'lb' ? 'kg' : 'lb';
  return `${showMass(kg(mass), mass.unit)} · ${showMass(kg(mass), other)}`;
}
