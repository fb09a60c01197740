/** Log measures of grown people of one sex: what is usual, how far people differ, and how measures go together. */
export type BodyTable = {
  /** `height` (mm), `weight` (kg), and ids of the catalogue. */
  readonly variables: readonly string[];
  readonly mean: readonly number[];
  readonly sd: readonly number[];
  readonly correlation: readonly (readonly number[])[];
};

/**
 * A table from its text: one line a variable, with its name, mean and SD of the natural logarithm, and its correlations with the lines before.
 *
 * Throws, as a bug, on a line of another length. Example: `height 7.4697 0.0392` / `weight 4.4309 0.1661 0.4710`.
 */
export function readBodyTable(text: string): BodyTable {
  const lines = text
    .trim()
    .split('\n')
    .map((line) => line.trim().split(' '));
  const variables = lines.map(([name = '']) => name);
  const figures = lines.map(([, ...rest], index) => {
    const numbers = rest.map(Number);
    if (numbers.length !== index + 2 || !numbers.every(Number.isFinite)) throw new RangeError(`line ${index + 1} of a body table`);
    return numbers;
  });
  return {
    variables,
    mean: figures.map(([mean = 0]) => mean),
    sd: figures.map(([, sd = 0]) => sd),
    correlation: figures.map((_, row) => figures.map((__, column) => correlationAt(figures, row, column))),
  };
}

function correlationAt(figures: readonly (readonly number[])[], row: number, column: number): number {
  if (row === column) return 1;
  const [later, earlier] = row > column ? [row, column] : [column, row];
  return figures[later]?.[earlier + 2] ?? 0;
}
