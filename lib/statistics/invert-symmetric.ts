/**
 * Inverse of a symmetric positive definite matrix, by Gauss–Jordan elimination in place: a column that has become one of the unit matrix takes the inverse’s.
 *
 * Shape: n × n rows (up to some hundred; the work grows with n³); n × n rows out. Undefined when the matrix has no inverse.
 * Source: linear algebra. Example: the inverse of [[2, 0], [0, 4]] is [[0.5, 0], [0, 0.25]].
 */
export function invertSymmetric(matrix: readonly (readonly number[])[]): number[][] | undefined {
  const size = matrix.length;
  const rows = matrix.map((row) => [...row]);
  for (let pivot = 0; pivot < size; pivot++) {
    const pivotRow = rows[pivot] as number[];
    const divisor = pivotRow[pivot] as number;
    if (!(divisor > 1e-12)) return undefined;
    pivotRow[pivot] = 1;
    for (let column = 0; column < size; column++) pivotRow[column] = (pivotRow[column] as number) / divisor;
    for (let other = 0; other < size; other++) {
      if (other === pivot) continue;
      const row = rows[other] as number[];
      const factor = row[pivot] as number;
      row[pivot] = 0;
      for (let column = 0; column < size; column++) row[column] = (row[column] as number) - factor * (pivotRow[column] as number);
    }
  }
  return rows;
}
