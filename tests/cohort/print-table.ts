/** Rows as a plain table, first column left, figures right, printed in one go so that a test report keeps it together. */
export function printTable(title: string, head: readonly string[], rows: readonly (readonly (string | number)[])[]): void {
  const cells = [head, ...rows].map((row) => row.map(String));
  const widths = head.map((_, column) => Math.max(...cells.map((row) => row[column]?.length ?? 0)));
  const line = (row: readonly string[]) =>
    row.map((cell, column) => (column === 0 ? cell.padEnd(widths[column] ?? 0) : cell.padStart(widths[column] ?? 0))).join('  ');
  process.stdout.write(`\n${title}\n${cells.map(line).join('\n')}\n`);
}

/** A share as a per cent with one decimal. */
export function percent(share: number): string {
  return Number.isFinite(share) ? (100 * share).toFixed(1) : '–';
}
