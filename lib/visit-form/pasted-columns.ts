/** What a comma between figures is: a decimal mark, or the end of a column. */
export type CommaIs = 'decimal' | 'column';

/** A pasted block cut into rows and columns, and how its commas were taken. */
export type PastedBlock = {
  readonly rows: readonly (readonly string[])[];
  readonly comma: CommaIs;
  readonly header: readonly string[] | null;
};

const MOST_ROWS = 400;
/** Characters that are looked at: as many rows, five hundred each. */
const MOST_TEXT = 200_000;

/**
 * Text from a spreadsheet cut into cells: columns by tab, else semicolon, else comma; rows by line; quoted cells as they are.
 *
 * A comma is a decimal mark unless every line has as many, and the text has decimal points, fractions, quotes or a blank after it; or
 * unless the reader says otherwise.
 * A first row without a figure in it is taken for a header. Shape: text; rows of trimmed cells, empty last lines dropped.
 * Source: RFC 4180 for quotes; spreadsheets copy columns by tab.
 * Example: `12,5⏎13,1` is one column of decimals; `1.5,7.75⏎3,8.25` is two columns.
 */
export function cutPasted(pasted: string, comma?: CommaIs): PastedBlock {
  const text = pasted.slice(0, MOST_TEXT);
  const taken = comma ?? guessComma(text);
  const separator = text.includes('\t') ? '\t' : text.includes(';') ? ';' : taken === 'column' ? ',' : '\n';
  const rows = cutQuoted(text.replace(/\r\n?/g, '\n'), separator).map((cells) => cells.map((cell) => cell.trim()));
  while (rows.length > 0 && rows.at(-1)?.every((cell) => cell === '')) rows.pop();
  const first = rows[0];
  const header = first && rows.length > 1 && first.every((cell) => !/\d/.test(cell)) && first.some((cell) => cell !== '') ? first : null;
  return { rows: rows.slice(header ? 1 : 0, MOST_ROWS), comma: taken, header };
}

function guessComma(text: string): CommaIs {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  const first = count(lines[0] ?? '');
  const even = first > 0 && lines.every((line) => count(line) === first);
  if (/[\t;]/.test(text) || !even) return 'decimal';
  return /\d\.\d|\d\/\d|[½¼¾⅛⅜⅝⅞]|,\s*[ "]|"\s*,|,[^,\n]*,/.test(text) ? 'column' : 'decimal';
}

/** Commas of a line that stand outside quotes. */
function count(line: string): number {
  return line.replace(/"[^"]*"/g, '').split(',').length - 1;
}

function cutQuoted(text: string, separator: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let quoted = false;
  let blank = true;
  for (let at = 0; at < text.length; at++) {
    const sign = text[at] as string;
    if (quoted && sign === '"' && text[at + 1] === '"') {
      cell += '"';
      blank = false;
      at++;
    } else if (sign === '"' && (quoted || blank)) quoted = !quoted;
    else if (!quoted && sign === '\n') {
      rows.push([...row, cell]);
      row = [];
      cell = '';
      blank = true;
    } else if (!quoted && sign === separator) {
      row.push(cell);
      cell = '';
      blank = true;
    } else {
      cell += sign;
      blank &&= sign.trim() === '';
    }
  }
  rows.push([...row, cell]);
  return rows;
}
