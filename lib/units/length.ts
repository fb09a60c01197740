/** A length in millimetres, for arithmetic. */
export type Millimetres = number & { readonly unit: 'mm' };

/** An exact length: a whole number of nanometres. 1/64 in (396,875 nm) and 0.1 mm are both whole. */
export type Nanometres = number & { readonly unit: 'nm' };

/** The two units a tape is read in. */
export type LengthUnit = 'in' | 'cm';

/** A length as a person wrote it, never re-written, beside the exact length it stands for. */
export type TypedLength = { readonly text: string; readonly unit: LengthUnit; readonly nm: Nanometres };

/** Nanometres in one unit. 1 in = 25.4 mm exactly (International Yard and Pound agreement, 1959). */
export const NANOMETRES_IN: Readonly<Record<LengthUnit | 'mm' | 'm' | 'ft', bigint>> = {
  in: 25_400_000n,
  cm: 10_000_000n,
  mm: 1_000_000n,
  m: 1_000_000_000n,
  ft: 304_800_000n,
};

/** An exact length as millimetres. Floats begin here. Example: 374,650,000 nm is 374.65 mm. */
export function mm(exact: Nanometres): Millimetres {
  return (exact / 1e6) as Millimetres;
}

/** A whole number that is known to be nanometres. Throws, as a bug, on a part of one. */
export function asNanometres(value: number): Nanometres {
  if (!Number.isSafeInteger(value)) throw new RangeError(`not a whole number of nanometres: ${value}`);
  return value as Nanometres;
}

/** Millimetres in the tape's own unit, as a float for showing. Example: 374.65 mm is 14.75 in. */
export function inUnit(lengthMm: number, unit: LengthUnit): number {
  return (lengthMm * 1e6) / Number(NANOMETRES_IN[unit]);
}
