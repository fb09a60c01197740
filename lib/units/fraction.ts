/** An exact, non-negative fraction of whole numbers, in lowest terms. */
export type Fraction = { readonly numerator: bigint; readonly denominator: bigint };

/**
 * A fraction in lowest terms.
 *
 * Refuses (throws, a bug in the caller) a denominator of zero or a negative part.
 * Example: `fraction(6n, 8n)` is 3/4.
 */
export function fraction(numerator: bigint, denominator: bigint): Fraction {
  if (denominator <= 0n || numerator < 0n) throw new RangeError(`not a non-negative fraction: ${numerator}/${denominator}`);
  const divisor = greatestCommonDivisor(numerator, denominator);
  return { numerator: numerator / divisor, denominator: denominator / divisor };
}

/** a/b + c/d, exactly. Example: 14 + 3/4 is 59/4. */
export function sumOf(a: Fraction, b: Fraction): Fraction {
  return fraction(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator);
}

/**
 * The whole number of units in `value × unitsPerOne`, or undefined when the product is not whole.
 *
 * Example: 59/4 in × 25,400,000 nm/in is 374,650,000 nm; 1/3 in is not a whole number of nanometres.
 */
export function wholeUnits(value: Fraction, unitsPerOne: bigint): number | undefined {
  const product = value.numerator * unitsPerOne;
  if (product % value.denominator !== 0n) return undefined;
  const units = product / value.denominator;
  return units <= BigInt(Number.MAX_SAFE_INTEGER) ? Number(units) : undefined;
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  return b === 0n ? a : greatestCommonDivisor(b, a % b);
}
