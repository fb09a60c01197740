import type { Mapping } from './mapping';
import { columnName } from './spreadsheet-row';
import type { TextTable } from './text-table';

/**
 * The columns of a table that a mapping leaves out although something stands in them, by heading and letter: always said, so that no girth
 * falls away without a word.
 *
 * Shape: a table, a mapping; names in the order of the columns. Example: `remarks 2 (column G)`.
 */
export function columnsLeftOut({ rows }: TextTable, { layout, roles }: Mapping): readonly string[] {
  if (layout === 'rungs') return [];
  const [header, ...body] = rows;
  const width = Math.max(0, ...rows.map(({ cells }) => cells.length));
  return Array.from({ length: width }, (_, index) => index).flatMap((index) => {
    const filled = body.some(({ cells }) => (cells[index] ?? '') !== '');
    return filled && (roles[index] ?? 'ignore') === 'ignore' ? [columnName(index, header?.cells[index] ?? '')] : [];
  });
}
