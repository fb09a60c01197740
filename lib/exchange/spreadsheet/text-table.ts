import { CsvError, parse } from 'csv-parse/sync';

/** A row of a spreadsheet with the line it begins on, from 1. */
export type TableRow = { readonly line: number; readonly cells: readonly string[] };

/** A spreadsheet's text cut into cells, and what parts them; `more` are further tables of the same kind on the same sheet. */
export type TextTable = { readonly delimiter: ',' | ';' | '\t'; readonly rows: readonly TableRow[]; readonly more?: readonly TextTable[] };

/** More rows or columns than this are not read: no clinic's ladders fill them. Clinic default. */
export const MOST_ROWS = 200_000;
const MOST_COLUMNS = 1000;
/** Signs of one line that may part cells: those of the most columns, and commas inside their words. */
const MOST_SIGNS = 10_000;
/** Cells of a table, counted before it is cut: 100,000 rows of twenty columns. Clinic default. */
const MOST_CELLS = 2_000_000;
/** Characters of one cell of a spreadsheet: the readers of a cell look for words and figures in it. */
const LONGEST_CELL = 4000;

const DELIMITERS = ['\t', ';', ','] as const;

/**
 * A spreadsheet's text as rows of trimmed cells: cut at the sign that gives most lines the same number of cells, more than one.
 *
 * A comma is the last to be tried, because it may be a decimal mark. Refuses a text that is no table, and one with too many rows or columns.
 * Source: RFC 4180 for quotes; common practice for tabs and semicolons.
 * Example: `0;12,5⏎4;13,1` is cut at the semicolon into two rows of two.
 */
export function textTable(
  text: string,
): { readonly kind: 'read'; readonly table: TextTable } | { readonly kind: 'refused'; readonly reason: string } {
  const signs = signsIn(text);
  if (signs.all > MOST_CELLS) return { kind: 'refused', reason: `The table has more than ${MOST_CELLS.toLocaleString('en')} cells.` };
  if (signs.ofOneLine > MOST_SIGNS) return { kind: 'refused', reason: `The table has more than ${MOST_COLUMNS} columns.` };
  const sample = text.slice(0, 20_000);
  const best = DELIMITERS.map((delimiter) => ({ delimiter, evenness: evenness(sample, delimiter) })).sort(
    (one, other) => other.evenness - one.evenness,
  )[0];
  if (!best || best.evenness === 0) return { kind: 'refused', reason: 'This is not a table: no line has more than one cell.' };
  const cut = cutAt(text, best.delimiter);
  if (typeof cut === 'string') return { kind: 'refused', reason: cut };
  const rows = cut
    .map(({ line, cells }) => ({ line, cells: cells.map((cell) => cell.trim()) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
  if (rows.length > MOST_ROWS)
    return { kind: 'refused', reason: `The table has ${rows.length} rows; at most ${MOST_ROWS} are read at once.` };
  if (rows.some(({ cells }) => cells.length > MOST_COLUMNS))
    return { kind: 'refused', reason: `The table has more than ${MOST_COLUMNS} columns.` };
  const long = rows.find(({ cells }) => cells.some((cell) => cell.length > LONGEST_CELL));
  if (long) return { kind: 'refused', reason: `Line ${long.line} has a cell of more than ${LONGEST_CELL} characters.` };
  return { kind: 'read', table: { delimiter: best.delimiter, rows } };
}

/** How many signs of a text, and of its fullest line, may part cells: no table has more cells than these. Commas inside words count too. */
function signsIn(text: string): { readonly all: number; readonly ofOneLine: number } {
  let all = 0;
  let ofLine = 0;
  let ofOneLine = 0;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 0x0a || code === 0x0d) ofLine = 0;
    else if (code === 0x2c || code === 0x3b || code === 0x09) ofLine++;
    else continue;
    all++;
    ofOneLine = Math.max(ofOneLine, ofLine);
  }
  return { all, ofOneLine };
}

/** Share of lines that have the commonest number of cells, where that is more than one; a little more for more cells. */
function evenness(sample: string, delimiter: string): number {
  const cut = cutAt(sample.slice(0, Math.max(sample.lastIndexOf('\n'), 0) || sample.length), delimiter);
  if (typeof cut === 'string' || cut.length === 0) return 0;
  const counts = new Map<number, number>();
  for (const { cells } of cut) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1);
  const [cells, lines] = [...counts].sort((one, other) => other[1] - one[1] || other[0] - one[0])[0] ?? [0, 0];
  return cells < 2 ? 0 : lines / cut.length;
}

function cutAt(text: string, delimiter: string): TableRow[] | string {
  try {
    const options = { delimiter, bom: true, info: true, relax_column_count: true, skip_empty_lines: true, max_record_size: 1_000_000 };
    const records = parse(text.replace(/\r\n?/g, '\n'), options) as unknown as { record: string[]; info: { lines: number } }[];
    return records.map(({ record, info }) => ({ line: info.lines - record.join('').split('\n').length + 1, cells: record }));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const { lines = 1 } = error as { lines?: number };
    return `Line ${lines}: the quotes of this row do not stand or close as they should, or it is too long.`;
  }
}
