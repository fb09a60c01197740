/** The middle value; of an even number the upper of the two in the middle, and 0 of none. Example: 3, 1, 2 → 2. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}
