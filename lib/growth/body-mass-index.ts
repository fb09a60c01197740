/**
 * Body mass index: weight in kg divided by the square of height in metres.
 *
 * Shape: kg and cm in, kg/m² out; undefined unless both are above zero. Source: WHO 2006 and 2007 (definition).
 * Example: 36.5 kg at 143 cm is 17.85 kg/m².
 */
export function bodyMassIndex(weightKg: number, heightCm: number): number | undefined {
  if (!(weightKg > 0 && heightCm > 0)) return undefined;
  return weightKg / (heightCm / 100) ** 2;
}
