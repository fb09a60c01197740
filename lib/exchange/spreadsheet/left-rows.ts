import { roleOfHeading } from './headings';
import type { Role } from './mapping';
import type { TableRow } from './text-table';

/** Sentences about what was left out, in the order in which it was found. */
export type Said = string[];

/** Rows that hold what is worked out from others. Source: common practice. */
const WORKED_OUT = /^(?:sub)?totals?\b|^sums?\b|^means?\b|^averages?\b|^avg\b|^difference\b|^diff\b|^volumes?\b|^Σ|^∑|^Ø/i;

/** Words that say nothing was measured. Source: common practice. */
const NO_VALUE = /^(?:n\/?a|n\.a\.?|-+|–+|—+|\*+|\?+|nil|none|x|not (?:taped|measured|done|taken))$/i;

/** A figure with a mark behind it that leads to a note: `24.5*`. */
const MARKED = /^(\d[\d.,/ ¼½¾⅛⅜⅝⅞]*?)\s*(?:\*+|†|‡)$/;

/** Columns that hold figures: places, visits and those that say so. A word in any other means itself. */
const FIGURES: readonly (Role | undefined)[] = [undefined, 'height', 'weight', 'girth', 'distance'];

/** Cells that are shown in a sentence at most. */
const SHOWN = 3;

/**
 * The rows below a heading without those that hold no readings: sums and means, notes below the table, the heading once more. Cells that say
 * that nothing was measured become empty, and a mark behind a figure goes. All of it is said.
 */
export function dropRows(rows: readonly TableRow[], header: TableRow, said: Said): readonly TableRow[] {
  const workedOut = rows.filter((row) => isWorkedOut(row, header));
  const notes = rows.filter((row) => !isWorkedOut(row, header) && isNote(row));
  if (workedOut.length > 0)
    said.push(`${counted(workedOut, 'row')} of sums or means ${workedOut.length === 1 ? 'was' : 'were'} left out: ${named(workedOut)}.`);
  if (notes.length > 0) said.push(`${counted(notes, 'row')} of words ${notes.length === 1 ? 'was' : 'were'} left out: ${named(notes)}.`);
  const kept = rows.filter((row) => !workedOut.includes(row) && !notes.includes(row) && !isAgain(row, header));
  const empty: string[] = [];
  const marked: string[] = [];
  const ofFigures = (index: number) => index > 0 && FIGURES.includes(roleOfHeading(header.cells[index] ?? ''));
  const cleaned = kept.map((row) => ({
    ...row,
    cells: row.cells.map((cell, index) => {
      if (ofFigures(index) && NO_VALUE.test(cell)) {
        empty.push(cell);
        return '';
      }
      const figure = ofFigures(index) ? MARKED.exec(cell)?.[1] : undefined;
      if (figure) marked.push(cell);
      return figure ?? cell;
    }),
  }));
  if (empty.length > 0) said.push(`${counted(empty, 'cell')} that say nothing was measured count as empty: ${shown(empty)}.`);
  if (marked.length > 0)
    said.push(
      `${counted(marked, 'figure')} with a mark behind ${marked.length === 1 ? 'it was' : 'them were'} read without it: ${shown(marked)}.`,
    );
  return cleaned;
}

/** A row that begins with a word like “Total”; where references stand the word alone, because a reference may begin with it. */
function isWorkedOut({ cells }: TableRow, header: TableRow): boolean {
  const at = cells.findIndex((cell) => cell !== '');
  const [found = ''] = WORKED_OUT.exec(cells[at] ?? '') ?? [];
  return found !== '' && (roleOfHeading(header.cells[at] ?? '') !== 'reference' || found === cells[at]);
}

/** One cell of words and nothing beside it; a lone figure is no note. */
function isNote({ cells }: TableRow): boolean {
  const filled = cells.filter((cell) => cell !== '');
  return filled.length === 1 && /\p{L}{2}/u.test(filled[0] ?? '') && /\s|^\*/.test(filled[0] ?? '');
}

function isAgain({ cells }: TableRow, header: TableRow): boolean {
  return cells.every((cell, index) => cell === (header.cells[index] ?? ''));
}

function counted(things: readonly unknown[], one: string): string {
  return `${things.length} ${one}${things.length === 1 ? '' : 's'}`;
}

function named(rows: readonly TableRow[]): string {
  const names = rows.slice(0, SHOWN).map(({ line, cells }) => `row ${line} “${(cells.find((cell) => cell !== '') ?? '').slice(0, 40)}”`);
  return `${names.join(', ')}${rows.length > SHOWN ? ' and more' : ''}`;
}

function shown(cells: readonly string[]): string {
  const different = [...new Set(cells)];
  return `${different
    .slice(0, SHOWN)
    .map((cell) => `“${cell}”`)
    .join(', ')}${different.length > SHOWN ? ' and more' : ''}`;
}
