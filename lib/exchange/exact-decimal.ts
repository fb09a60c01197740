/**
 * A whole number of small parts as a decimal of the large unit, digit by digit, never through a float.
 *
 * Shape: whole parts and how many decimals the large unit has of them; text without trailing zeros.
 * Example: 374,650,000 nm with 6 decimals is `374.65` mm; −5 with 1 decimal is `-0.5`.
 */
export function exactDecimal(parts: number, decimals: number): string {
  const digits = BigInt(Math.abs(parts))
    .toString()
    .padStart(decimals + 1, '0');
  const whole = digits.slice(0, digits.length - decimals);
  const rest = digits.slice(digits.length - decimals).replace(/0+$/, '');
  return `${parts < 0 ? '-' : ''}${whole}${rest === '' ? '' : `.${rest}`}`;
}

/**
 * The whole parts of a decimal text, or undefined when it is none or finer than the parts. Undoes `exactDecimal`.
 * Example: `-12.5` in thousandths → −12500; `12.5555` → undefined.
 */
export function partsOfDecimal(text: string, decimals: number): number | undefined {
  const found = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text);
  const rest = found?.[3] ?? '';
  if (!found || rest.length > decimals) return undefined;
  const parts = Number(BigInt(`${found[1]}${found[2]}${rest.padEnd(decimals, '0')}`));
  return Number.isSafeInteger(parts) ? parts : undefined;
}

/** Decimals of a millimetre in nanometres, and of a kilogram in nanograms. */
export const MM_DECIMALS = 6;
export const KG_DECIMALS = 12;
