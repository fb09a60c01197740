import type { Mapping, Role } from './mapping';
import type { TableRow, TextTable } from './text-table';

/** Columns whose empty cell takes the one above, as merged cells come, by layout. */
const CARRIED: Readonly<Record<Mapping['layout'], readonly Role[]>> = {
  rungs: [],
  'places-down': [],
  'visits-down': ['reference', 'born', 'sex'],
  long: ['reference', 'born', 'sex', 'day', 'time', 'limb', 'side'],
};

/** The rows below a heading with each empty cell of patient (and, in a long table, of day, limb and side) filled from above. */
export function carriedDown(rows: readonly TableRow[], { layout, roles }: Mapping): readonly TableRow[] {
  let above: readonly string[] = [];
  return rows.map((row) => {
    const cells = Array.from({ length: Math.max(row.cells.length, roles.length) }, (_, index) => {
      const cell = row.cells[index] ?? '';
      return cell === '' && CARRIED[layout].includes(roles[index] ?? 'ignore') ? (above[index] ?? '') : cell;
    });
    above = cells;
    return { ...row, cells };
  });
}

/** What is said of the cells that took the one above: how many, and the first row; nothing where none did. */
export function saidOfCarried({ rows, more = [] }: TextTable, mapping: Mapping): readonly string[] {
  const body = rows.slice(1);
  const filled = carriedDown(body, mapping);
  const changed = body.flatMap(
    (row, at) => filled[at]?.cells.flatMap((cell, index) => (cell !== (row.cells[index] ?? '') ? [row.line] : [])) ?? [],
  );
  const [first] = changed;
  const own =
    first === undefined
      ? []
      : [
          `${changed.length} empty cells of patient, day or side took the cell above, as merged cells come; the first stands in row ${first}.`,
        ];
  return [...own, ...more.flatMap((one) => saidOfCarried(one, mapping))];
}
