import type { Extension, Quantity } from 'fhir/r4';
import { asNanometres, type LengthUnit, NANOMETRES_IN, type TypedLength } from '../../units/length';
import { type MassUnit, NANOGRAMS_IN, readMass, type TypedMass } from '../../units/mass';
import { readLength } from '../../units/read-length';
import { ownExtension } from './own-codes';

const AS_TYPED = ownExtension('as-typed');

/** UCUM codes of the units that are taped and weighed in. Source: UCUM; they are also the bound units of the R4 vital signs. */
const UCUM = { in: '[in_i]', cm: 'cm', lb: '[lb_av]', kg: 'kg' } as const;
const UNIT_OF: Readonly<Record<string, LengthUnit | MassUnit>> = { '[in_i]': 'in', cm: 'cm', '[lb_av]': 'lb', kg: 'kg' };

export const UCUM_SYSTEM = 'http://unitsofmeasure.org';

/** Digits of a decimal that is written: beyond them it does not end. */
const MOST_DECIMALS = 15;

/**
 * A length or mass as a Quantity in the unit it was typed in, with the typed text beside it.
 *
 * The digits that are written are those of the typed text (`decimalOf`), never those of a float.
 */
export function typedQuantity(typed: TypedLength | TypedMass): Quantity {
  const code = UCUM[typed.unit];
  return {
    extension: [{ url: AS_TYPED, valueString: typed.text }],
    value: Number(decimalOf(typed)),
    unit: typed.unit,
    system: UCUM_SYSTEM,
    code,
  };
}

/**
 * The decimal figure of a length or mass in its own unit: the typed digits where the text is a plain decimal, else the exact value.
 *
 * Example: `12.50` in stays `12.50`; `12 1/2` in is `12.5`; `37,5` cm is `37.5`; `5'4"` is `64`.
 */
function decimalOf(typed: TypedLength | TypedMass): string {
  const plain = /^(\d+)(?:[.,](\d+))?(?:\s*(?:in|cm|kg|lb))?$/.exec(typed.text.trim());
  if (plain) return `${BigInt(plain[1] ?? '0')}${plain[2] === undefined ? '' : `.${plain[2]}`}`;
  return 'nm' in typed ? divided(BigInt(typed.nm), NANOMETRES_IN[typed.unit]) : divided(BigInt(typed.ng), NANOGRAMS_IN[typed.unit]);
}

/** A fraction as a decimal text, by long division. */
function divided(parts: bigint, unit: bigint): string {
  let digits = '';
  for (let rest = parts % unit; rest !== 0n && digits.length < MOST_DECIMALS; rest = (rest * 10n) % unit) digits += (rest * 10n) / unit;
  return `${parts / unit}${digits === '' ? '' : `.${digits}`}`;
}

/** The digits with which a Quantity is written, when it carries its typed text; undefined for any other. */
export function digitsOf(quantity: Quantity): string | undefined {
  const typed = lengthOf(quantity) ?? massOf(quantity);
  return typed && decimalOf(typed);
}

/** The typed length of a Quantity of ours; undefined when it is none, or when value and text say different things. */
export function lengthOf(quantity: Quantity | undefined): TypedLength | undefined {
  const unit = UNIT_OF[quantity?.code ?? ''];
  const text = quantity?.extension?.find(({ url }: Extension) => url === AS_TYPED)?.valueString;
  if ((unit !== 'in' && unit !== 'cm') || text === undefined) return undefined;
  if (/^0+([.,]0+)?$/.test(text)) return { text, unit, nm: asNanometres(0) };
  const reading = readLength(text, unit);
  return reading.kind === 'read' && reading.value.unit === unit && agrees(quantity, reading.value) ? reading.value : undefined;
}

/** The typed mass of a Quantity of ours; undefined when it is none, or when value and text say different things. */
export function massOf(quantity: Quantity | undefined): TypedMass | undefined {
  const unit = UNIT_OF[quantity?.code ?? ''];
  const text = quantity?.extension?.find(({ url }: Extension) => url === AS_TYPED)?.valueString;
  if ((unit !== 'kg' && unit !== 'lb') || text === undefined) return undefined;
  const reading = readMass(text, unit);
  return reading.kind === 'read' && reading.value.unit === unit && agrees(quantity, reading.value) ? reading.value : undefined;
}

/** Whether the value of a Quantity is that of the text beside it, to the digits that are written. */
function agrees(quantity: Quantity | undefined, typed: TypedLength | TypedMass): boolean {
  const value = quantity?.value;
  return value !== undefined && Math.abs(value - Number(decimalOf(typed))) <= 1e-9 * Math.max(1, Math.abs(value));
}
