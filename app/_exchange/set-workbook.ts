import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import readWorkbook from 'read-excel-file/node';
import writeWorkbook from 'write-excel-file/node';
import type { OutgoingPatient } from '@/db/exchange/patient-files';
import { csvText } from '@/lib/exchange/csv-text';
import { DICTIONARY_FILE, dataDictionary, fileNameOf } from '@/lib/exchange/set/data-dictionary';
import { setCounter } from '@/lib/exchange/set/set-tally';
import { columnsIn, linesOf, rowsOf, SET_TABLES, type SetStyle } from '@/lib/exchange/set/write-set';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { PartOf } from './set-parts';

/** How a set is written into a workbook: to the letter, because a text cell is never taken for a formula or a figure. */
export const WORKBOOK_STYLE: SetStyle = { research: false, defused: false };

/** The part of a workbook that holds its texts. */
const STRINGS = 'xl/sharedStrings.xml';

/** The sheet that says how the set was written. */
const DICTIONARY_SHEET = DICTIONARY_FILE.replace('.json', '');

/** Characters a cell of a workbook holds, and rows of a workbook made here, which is held whole. Source of the first: ECMA-376, as programs read it. */
const LONGEST_CELL = 32_767;
const MOST_ROWS = 200_000;

/** A set as one workbook, or why it cannot be one, in a sentence. */
export type SetWorkbook =
  | { readonly kind: 'made'; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly kind: 'refused'; readonly reason: string };

/**
 * A set as a workbook: a sheet for each table and one for the dictionary, every cell text, so that fractions, references and times come back
 * from a spreadsheet program as they went. Refuses more rows than a workbook should hold, and a cell longer than one can.
 */
export async function setWorkbook(patients: AsyncIterable<OutgoingPatient>, partOf: PartOf, today: CalendarDay): Promise<SetWorkbook> {
  const counter = setCounter();
  const sheets = new Map(SET_TABLES.map((table) => [table, [columnsIn(table, WORKBOOK_STYLE).map(({ name }) => name)]]));
  let rows = 0;
  for await (const patient of patients) {
    const part = partOf(patient);
    for (const table of SET_TABLES) {
      const own = rowsOf(table, part, WORKBOOK_STYLE);
      counter.noted(table, part, linesOf(table, part, WORKBOOK_STYLE));
      sheets.get(table)?.push(...own.map((cells) => [...cells]));
      rows += own.length;
      if (own.some((cells) => cells.some((cell) => escaped(cell).length > LONGEST_CELL)))
        return { kind: 'refused', reason: `A cell of ${part.subjectId} is longer than a workbook holds. Take the tables instead.` };
    }
    if (rows > MOST_ROWS)
      return { kind: 'refused', reason: `More than ${MOST_ROWS} rows are too many for a workbook. Take the tables instead.` };
  }
  const dictionary = JSON.stringify(dataDictionary(WORKBOOK_STYLE, today, counter.tally()), null, 1).split('\n');
  const all = [
    ...[...sheets].map(([{ name }, cells]) => ({ name, cells })),
    { name: DICTIONARY_SHEET, cells: dictionary.map((line) => [line]) },
  ];
  const made = await writeWorkbook(all.map(({ name, cells }) => ({ sheet: name, data: cells.map((row) => row.map(textCell)) }))).toBuffer();
  return { kind: 'made', bytes: withoutGuards(new Uint8Array(made)) };
}

function textCell(text: string) {
  return text === '' ? null : { value: escaped(text), type: String, format: '@' };
}

/** Characters that XML does not carry, and texts that look like one that was escaped, as `_xHHHH_`. Source: ECMA-376 part 1, 22.9.2.19 (ST_Xstring). */
function escaped(text: string): string {
  const code = (character: string) => `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`;
  const guarded = text in Object.prototype || text.startsWith(GUARD) ? GUARD + text : text;
  return guarded.replace(/_(?=x[0-9A-Fa-f]{4}_)/g, code).replace(/[^\t\n -\uffff]|[\ufffe\uffff]/g, code);
}

/**
 * Stands before a word like `valueOf` or `constructor` while the workbook is written: the writer's table of strings takes such a word for one of
 * its own and puts another text in its place. It is taken off again.
 */
const GUARD = '\ue000\ue001';

function withoutGuards(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const parts = unzipSync(bytes);
  const strings = parts[STRINGS];
  if (!strings) return new Uint8Array(bytes);
  return new Uint8Array(zipSync({ ...parts, [STRINGS]: strToU8(strFromU8(strings).replaceAll(`>${GUARD}`, '>')) }));
}

/** The tables of a workbook that was made here, by file name; undefined for any other workbook. */
export async function setOfWorkbook(bytes: Uint8Array): Promise<Readonly<Record<string, string>> | undefined> {
  const sheets = (await readWorkbook(Buffer.from(bytes), { trim: false })).map(({ sheet, data }) => ({ name: sheet, rows: data }));
  const dictionary = sheets.find(({ name }) => name === DICTIONARY_SHEET);
  if (!dictionary) return undefined;
  const texts = SET_TABLES.flatMap((table): (readonly [string, string])[] => {
    const rows = sheets.find(({ name }) => name === table.name)?.rows;
    const width = rows?.[0]?.length ?? 0;
    const cells = rows?.map((row) => Array.from({ length: width }, (_, at) => String(row[at] ?? '')));
    return cells ? [[fileNameOf(table), csvText(cells)]] : [];
  });
  const said = dictionary.rows.map(([line]) => String(line ?? '')).join('\n');
  return { ...Object.fromEntries(texts), [DICTIONARY_FILE]: said };
}
