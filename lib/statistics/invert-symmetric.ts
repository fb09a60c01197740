/**
 * Inverse of a symmetric positive definite matrix, by Gauss–Jordan elimination.
 *
 * Shape: n × n rows (up to some hundred; the work grows with n³); n × n rows out. Undefined when the matrix has no inverse.
 * Source: linear algebra. Example: the inverse of [[2, 0], [0, 4]] is [[0.5, 0], [0, 0.25]].
 */
export function invertSymmetric(matrix: readonly (readonly number[])[]): number[][] | undefined {
  const size = matrix.length;
  const rows = matrix.map((row, index) => [...row, ...Array.from({ length: size }, (_, column) => (column === index ? 1 : 0))]);
  for (let pivot = 0; pivot < size; pivot++) {
    const pivotRow = rows[pivot] as number[];
    const divisor = pivotRow[pivot] as number;
    if (!(divisor > 1e-12)) return undefined;
    for (let column = 0; column < 2 * size; column++) pivotRow[column] = (pivotRow[column] as number) / divisor;
    for (let other = 0; other < size; other++) {
      if (other === pivot) continue;
      const row = rows[other] as number[];
      const factor = row[pivot] as number;
      for (let column = 0; column < 2 * size; column++) row[column] = (row[column] as number) - factor * (pivotRow[column] as number);
    }
  }
  return rows.map((row) => row.slice(size));
}
