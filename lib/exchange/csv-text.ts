/**
 * Rows of cells as CSV text: commas, CRLF after each row, quotes only where a cell needs them.
 *
 * Cells are written as they are; the reader trims blanks at their ends. Source: RFC 4180.
 * Example: [['a', 'say "3, 4"']] is `a,"say ""3, 4"""` and a line end.
 */
export function csvText(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(quoted).join(',')}\r\n`).join('');
}

function quoted(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
