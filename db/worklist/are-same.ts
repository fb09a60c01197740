/** Whether rows to store and rows stored are the same ones with the same values, whatever their order. */
export function areSame<T extends { readonly id: string }>(rows: readonly T[], stored: readonly T[]): boolean {
  const before = new Map(stored.map((row) => [row.id, row]));
  const isSame = (row: T, other: T | undefined) =>
    other !== undefined && (Object.keys(row) as (keyof T)[]).every((column) => row[column] === other[column]);
  return rows.length === before.size && rows.every((row) => isSame(row, before.get(row.id)));
}
