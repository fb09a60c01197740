import { CsvError, parse } from 'csv-parse/sync';

/** Characters of one cell: the longest words that the program itself takes. */
export const LONGEST_CELL = 20_000;

/** What is wrong with a file, where. Lines count from 1, the header being line 1; `file` names it where several are read together. */
export type CsvFault = { readonly file?: string; readonly line: number; readonly column: string; readonly reason: string };

/**
 * A row with the line it stands on and its cells by column name. `named` says what a column is called where the row came from; `fault` is
 * what was found wrong before its cells were looked at.
 */
export type CsvRow = {
  readonly named?: (column: string) => string;
  readonly fault?: CsvFault;
  readonly file?: string;
  readonly line: number;
  readonly cell: (column: string) => string;
};

/** Thrown and caught inside this folder only, so that reading a row stays straight; callers see a fault. */
export class CsvRefusal extends Error {
  constructor(readonly fault: CsvFault) {
    super(`line ${fault.line}, ${fault.column}: ${fault.reason}`);
  }
}

/**
 * The rows of a CSV text with the columns that are expected, in any order.
 *
 * Refuses (CsvRefusal) a text that is not CSV, a missing, unknown or doubled column, and a row with too many or too few cells.
 * Line ends of any kind count as one line, also inside quotes, and cells are trimmed; `exact` keeps each cell to the character.
 * Source: RFC 4180; a byte order mark is passed over.
 */
export function csvRows(text: string, columns: readonly string[], exact = false): CsvRow[] {
  return namedRows(cutRows(text, exact), columns, exact);
}

/** The rows of a CSV text as they are cut, the header among them; refuses (CsvRefusal) quotes that do not close. */
export function cutRows(text: string, exact = false): CutRow[] {
  return parsed(exact ? text : text.replace(/\r\n?/g, '\n'));
}

/** The rows of a table that was cut already, with the columns that are expected; refuses like `csvRows`. */
export function namedRows(records: readonly CutRow[], columns: readonly string[], exact = false): CsvRow[] {
  const header = records[0];
  if (!header) throw new CsvRefusal({ line: 1, column: columns[0] ?? '', reason: 'The file is empty.' });
  const names = header.cells.map((name) => name.trim());
  checkHeader(names, columns);
  const places = new Map(names.map((name, place) => [name, place]));
  return records.slice(1).map(({ cells, line }) => {
    const long = cells.findIndex((cell) => cell.length > LONGEST_CELL);
    if (long >= 0) throw new CsvRefusal({ line, column: names[long] ?? '', reason: `The cell has more than ${LONGEST_CELL} characters.` });
    if (cells.length !== names.length) {
      const column = names[Math.min(cells.length, names.length - 1)] ?? '';
      throw new CsvRefusal({ line, column, reason: `The row has ${cells.length} cells, the header ${names.length}.` });
    }
    const cell = (column: string) => cells[places.get(column) ?? -1] ?? '';
    return { line, cell: exact ? cell : (column) => cell(column).trim() };
  });
}

/** A row before its cells are named. */
export type CutRow = { readonly cells: readonly string[]; readonly line: number };

function parsed(text: string): CutRow[] {
  try {
    const records = parse(text, { bom: true, relax_column_count: true }) as string[][];
    let line = 1;
    return records.flatMap((cells) => {
      const row = { cells, line };
      line += 1 + lineEndsIn(cells);
      return cells.length === 1 && cells[0] === '' ? [] : [row];
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const { lines = 1, index = 0 } = error as { lines?: number; index?: number };
    const header = text.replace(/^\ufeff/, '').split(/\r?\n|\r/, 1)[0] ?? '';
    const column = header.split(',')[index]?.trim() ?? '';
    throw new CsvRefusal({
      line: lines,
      column,
      reason: 'The quotes of this row do not stand or close as CSV wants: double a quote inside a quoted cell.',
    });
  }
}

/** Line ends inside the quoted cells of a row: a row is named by the line it begins on. */
function lineEndsIn(cells: readonly string[]): number {
  let ends = 0;
  for (const cell of cells) for (let at = cell.indexOf('\n'); at >= 0; at = cell.indexOf('\n', at + 1)) ends += 1;
  return ends;
}

function checkHeader(names: readonly string[], columns: readonly string[]): void {
  const unknown = names.find((name) => !columns.includes(name));
  if (unknown !== undefined)
    throw new CsvRefusal({ line: 1, column: unknown, reason: `Unknown column. The columns are ${columns.join(', ')}.` });
  const missing = columns.find((column) => !names.includes(column));
  if (missing !== undefined) throw new CsvRefusal({ line: 1, column: missing, reason: 'This column is missing from the header.' });
  const doubled = names.find((name, index) => names.indexOf(name) !== index);
  if (doubled !== undefined) throw new CsvRefusal({ line: 1, column: doubled, reason: 'This column stands twice in the header.' });
}
