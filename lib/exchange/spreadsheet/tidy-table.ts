import { LADDER_COLUMNS } from '../ladder-cells';
import { isHeadingWord, roleOfHeading } from './headings';
import { dropRows, type Said } from './left-rows';
import { isPlaceHeading, sideIn } from './place-label';
import { looksLikeDay } from './spreadsheet-day';
import type { TableRow, TextTable } from './text-table';
import { withoutUnit } from './unit-in-text';

/** What stands above a table about all of it: whose it is, which limb and side. Empty where nothing does. */
export type SaidAbove = {
  readonly reference: string;
  readonly born: string;
  readonly sex: string;
  readonly limb: string;
  readonly side: string;
};

/** A table of which the first row is its heading, what stood above it, and what was left out or taken otherwise, in sentences. */
export type Tidied = { readonly table: TextTable; readonly above: SaidAbove; readonly said: readonly string[] };

/** Rows among which the heading is looked for. */
const HEADING_WITHIN = 20;

const NOTHING: SaidAbove = { reference: '', born: '', sex: '', limb: '', side: '' };

/**
 * A sheet as clinics have it as a table with its heading in the first row: a title and lines about the patient above it are read and taken
 * off, sides over several columns go into the headings below, a second table of the same kind is put beside the first, rows of sums and
 * notes are left out, cells that say “n/a” are empty. Whatever is done is said. Columns stay where they are, so that a cell is named as in
 * the file.
 *
 * A ladders file is left as it is. Shape: a cut table; the same table where its first row is its heading and nothing else is odd. Source: common practice.
 */
export function tidyTable(whole: TextTable): Tidied {
  const at = headingAt(whole.rows);
  const header = whole.rows[at];
  const isLadders = LADDER_COLUMNS.every((column) => whole.rows[0]?.cells.includes(column));
  if (!header || isLadders) return { table: whole, above: NOTHING, said: [] };
  const over = whole.rows.slice(0, at);
  const said: Said = [];
  if (at > 0) said.push(`The heading is row ${header.line}; what stands above it was read as a title: ${titleOf(over)}.`);
  const groups = over.filter(isGroupRow).at(-1);
  const above = saidAbove(over.filter((row) => row !== groups));
  const parts = partsOf(whole.rows.slice(at + 1), header);
  const [first, ...others] = parts;
  const table = {
    ...whole,
    rows: [withSides(header, groups, parts.length > 1 ? above.side : ''), ...dropRows(first?.rows ?? [], header, said)],
  };
  const more = others.flatMap(({ header: own, title, rows }): TextTable[] => {
    if (!isSameKind(own, header)) {
      said.push(`A second table, from row ${own.line} on, has other columns and was left out. Put it on a sheet of its own.`);
      return [];
    }
    const side = sideOf(title);
    said.push(`A second table begins in row ${own.line} and was read too${side ? `, for the ${side}` : ''}.`);
    return [{ ...whole, rows: [withSides(own, undefined, side), ...dropRows(rows, own, said)] }];
  });
  return { table: more.length > 0 ? { ...table, more } : table, above: parts.length > 1 ? { ...above, side: '' } : above, said };
}

/** Which row is the heading: the first that holds most headings and nothing else; the first row where none is better. */
function headingAt(rows: readonly TableRow[]): number {
  const scores = rows.slice(0, HEADING_WITHIN).map(headingScore);
  const best = Math.max(0, ...scores);
  const found = scores.findIndex((score) => score > best / 2 && score >= 3);
  return Math.max(0, found);
}

/** Two for each heading word or day, one for each figure that can be a place, less two for each cell that is neither; nothing without a word or a day beside an empty corner. */
function headingScore({ cells }: TableRow): number {
  const words = cells.filter(isHeadingWord).length;
  const days = cells.filter((cell, index) => index > 0 && isDayHeading(cell) && roleOfHeading(cells[index - 1] ?? '') === undefined).length;
  if (words === 0 && !(days > 0 && (cells[0] ?? '') === '')) return 0;
  const filled = cells.filter((cell) => cell !== '').length;
  const places = cells.filter((cell) => cell !== '' && !isHeadingWord(cell) && isPlaceHeading(sideIn(cell).rest)).length;
  const others = Math.max(0, filled - words - days - places);
  return filled < 2 ? 0 : 2 * words + 2 * days + places - 2 * others;
}

function isDayHeading(cell: string): boolean {
  return looksLikeDay(withoutUnit(sideIn(withoutUnit(cell)).rest));
}

/** A row that names sides over groups of columns: `Right leg` and `Left leg`, each over several. */
function isGroupRow({ cells }: TableRow): boolean {
  const filled = cells.filter((cell) => cell !== '');
  return filled.length > 1 && filled.every((cell) => sideOf(cell) !== '');
}

/** A heading with the side of its group in each column that is a place or a visit and says none itself. */
function withSides(header: TableRow, groups: TableRow | undefined, side: string): TableRow {
  if (!groups && side === '') return header;
  let last = side;
  const cells = header.cells.map((cell, index) => {
    last = sideOf(groups?.cells[index] ?? '') || last;
    const takesSide = index > 0 && (isDayHeading(cell) || (isPlaceHeading(sideIn(cell).rest) && !isHeadingWord(cell)));
    return last === '' || !takesSide || sideIn(withoutUnit(cell)).side !== undefined ? cell : `${last} ${cell}`;
  });
  return { ...header, cells };
}

type Part = { readonly header: TableRow; readonly title: string; readonly rows: readonly TableRow[] };

/** The rows below a heading, cut where another heading stands; a line or two right above that one are its title. */
function partsOf(rows: readonly TableRow[], header: TableRow): readonly Part[] {
  const parts: { header: TableRow; title: string; rows: TableRow[] }[] = [{ header, title: '', rows: [] }];
  for (const row of rows) {
    const part = parts.at(-1);
    const isHeading = headingScore(row) >= 3 && (isSameKind(row, header) || row.cells.filter(isHeadingWord).length > 1);
    if (!isHeading || !part) part?.rows.push(row);
    else if (row.cells.every((cell, index) => cell === (header.cells[index] ?? '')) && !isTitle(part.rows.at(-1))) continue;
    else {
      const title = isTitle(part.rows.at(-1)) ? part.rows.pop() : undefined;
      parts.push({ header: row, title: title?.cells.join(' ') ?? '', rows: [] });
    }
  }
  return parts;
}

function isTitle(row: TableRow | undefined): boolean {
  return row !== undefined && row.cells.filter((cell) => cell !== '').length === 1 && /\p{L}/u.test(row.cells.join(''));
}

/** Two headings of one kind: words in the same columns, and a day or a place wherever the other has one. */
function isSameKind(one: TableRow, other: TableRow): boolean {
  const kind = ({ cells }: TableRow) =>
    cells.map((cell) => (isDayHeading(cell) ? 'day' : (roleOfHeading(cell) ?? (cell === '' ? '' : 'place'))));
  const [left, right] = [kind(one), kind(other)];
  return left.every((what, index) => what === (right[index] ?? '') || (index > 0 && what === 'place' && right[index] === ''));
}

function titleOf(rows: readonly TableRow[]): string {
  const words = rows.map(({ cells }) => cells.filter((cell) => cell !== '').join(' ')).join('; ');
  return `“${words.length > 120 ? `${words.slice(0, 119)}…` : words}”`;
}

function saidAbove(rows: readonly TableRow[]): SaidAbove {
  const cells = rows.flatMap(({ cells }) => cells);
  const saidOf = (role: 'reference' | 'born' | 'sex') => {
    const found = cells.flatMap((cell, index) => {
      const [word = '', ...value] = cell.split(':');
      if (roleOfHeading(word) !== role) return [];
      return [value.join(':').trim() || (cells[index + 1] ?? '')];
    });
    return found.find((value) => value !== '') ?? '';
  };
  const words = cells.join(' ').toLowerCase();
  const limbs = (['leg', 'arm'] as const).filter((limb) => new RegExp(`\\b${limb}s?\\b`).test(words));
  return {
    reference: saidOf('reference'),
    born: saidOf('born'),
    sex: saidOf('sex'),
    limb: limbs.length === 1 ? (limbs[0] ?? '') : '',
    side: sideOf(words),
  };
}

/** The one side that words name; empty for none or both. */
function sideOf(words: string): string {
  const found = (['left', 'right'] as const).filter((side) => new RegExp(`\\b${side}\\b`, 'i').test(words));
  const short = /^(?:l|r)$/i.exec(words.trim())?.[0].toLowerCase();
  if (short) return short === 'l' ? 'left' : 'right';
  return found.length === 1 ? (found[0] ?? '') : '';
}
