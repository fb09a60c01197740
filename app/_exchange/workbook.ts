import { strFromU8, Unzip, UnzipInflate } from 'fflate';
import readWorkbook from 'read-excel-file/node';
import { setOfWorkbook } from './set-workbook';

/** Why a workbook is not taken, in a sentence; the text of its one sheet, and what was said of it; or the tables of a set that was made here, as JSON. */
export type WorkbookRead =
  | { readonly kind: 'read'; readonly text: string; readonly said: readonly string[] }
  | { readonly kind: 'set'; readonly text: string }
  | { readonly kind: 'refused'; readonly reason: string };

type Cell = string | number | boolean | Date | null;

const DAY_MS = 86_400_000;

/** First bytes of the binary workbooks of before 2007 (compound file). */
const OLD_WORKBOOK = [0xd0, 0xcf, 0x11, 0xe0];

/** True for a workbook: a packed file with sheets, of either open format, or an old binary one. */
export function looksLikeWorkbook(bytes: Uint8Array): boolean {
  if (OLD_WORKBOOK.every((byte, index) => bytes[index] === byte)) return true;
  const start = strFromU8(bytes.subarray(0, 4000), true);
  return start.includes('xl/') || start.includes('[Content_Types].xml') || start.includes('application/vnd.oasis.opendocument.spreadsheet');
}

/**
 * A workbook's sheet as a table's text, cells parted by tabs: texts as they stand, numbers to twelve figures, days and times as they are meant.
 *
 * Refused: binary and OpenDocument workbooks (with what to do), macros, one that unpacks to more than `most` bytes whatever it says of its
 * size, one without figures, and one with several sheets of figures until a sheet is named. Said: formulas read by their last value, links to
 * other files, hidden sheets left out. Source: ECMA-376 (Office Open XML), read by `read-excel-file`.
 */
export async function readWorkbookSheet(bytes: Uint8Array, sheetName: string, most: number): Promise<WorkbookRead> {
  if (OLD_WORKBOOK.every((byte, index) => bytes[index] === byte))
    return refused('This is an old binary workbook. Save it as .xlsx, or as CSV.');
  const parts = partsWithin(bytes, most);
  if (!parts) return refused('The workbook cannot be unpacked, or is larger than it says. Nothing was taken.');
  if (!parts.has('xl/workbook.xml'))
    return refused(
      'This is an OpenDocument workbook (.ods), or one of another form. It is not read: open it and save it as .xlsx, or as CSV.',
    );
  if ([...parts.keys()].some((name) => name.endsWith('vbaProject.bin')))
    return refused('This workbook holds macros. Save it as .xlsx without them.');
  const set = await setOfWorkbook(bytes);
  if (set) return { kind: 'set', text: JSON.stringify(set) };
  const hidden = hiddenSheets(parts.get('xl/workbook.xml') ?? '');
  const sheets = (await readWorkbook(Buffer.from(bytes))).map(({ sheet, data }) => ({
    name: sheet,
    rows: data as readonly (readonly Cell[])[],
  }));
  const filled = sheets.filter(({ name, rows }) => !hidden.has(name) && rows.some((row) => row.some((cell) => cell !== null)));
  const chosen = sheetName === '' && filled.length === 1 ? filled[0] : filled.find(({ name }) => name === sheetName.trim());
  if (filled.length === 0) return refused('No sheet of this workbook has anything in it.');
  if (!chosen)
    return refused(`Which sheet? ${filled.map(({ name }) => `“${name}”`).join(', ')}. Choose the file again and write the sheet’s name.`);
  return { kind: 'read', text: chosen.rows.map((row) => row.map(cellText).join('\t')).join('\n'), said: saidOf(parts, hidden) };
}

function saidOf(parts: ReadonlyMap<string, string>, hidden: ReadonlySet<string>): string[] {
  const formulas = [...parts]
    .filter(([name]) => name.startsWith('xl/worksheets/'))
    .reduce((sum, [, xml]) => sum + (xml.match(/<f[ >/]/g)?.length ?? 0), 0);
  const links = [...parts.keys()].some((name) => name.startsWith('xl/externalLinks/'));
  return [
    ...(formulas > 0 ? [`${formulas} ${formulas === 1 ? 'formula was' : 'formulas were'} read by the value it last showed.`] : []),
    ...(links ? ['The workbook refers to other files; they were not opened.'] : []),
    ...(hidden.size > 0 ? [`Hidden sheets were left out: ${[...hidden].join(', ')}.`] : []),
  ];
}

function hiddenSheets(xml: string): ReadonlySet<string> {
  const sheets = xml.match(/<sheet\b[^>]*>/g) ?? [];
  return new Set(
    sheets.flatMap((sheet) => (/\bstate="(?:hidden|veryHidden)"/.test(sheet) ? [/\bname="([^"]*)"/.exec(sheet)?.[1] ?? ''] : [])),
  );
}

function cellText(cell: Cell): string {
  const text =
    cell === null
      ? ''
      : cell instanceof Date
        ? dateText(cell)
        : typeof cell === 'number'
          ? String(Number(cell.toPrecision(12)))
          : String(cell);
  return /[\t\n\r"]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A day as `2026-03-02`, a time of no day as `14:10`, both where both are there. Workbooks keep a bare time on the last day of 1899 or the first of 1904. */
function dateText(date: Date): string {
  const [day = '', clock = ''] = date.toISOString().split('T');
  const time = clock.slice(0, 5);
  if (date.getUTCFullYear() < 1905 && date.getTime() % DAY_MS !== 0) return time;
  return date.getTime() % DAY_MS === 0 ? day : `${day} ${time}`;
}

/** The packed texts by name, unpacked no further than `most` bytes in all; undefined when there is more, or when it cannot be unpacked. */
function partsWithin(bytes: Uint8Array, most: number): ReadonlyMap<string, string> | undefined {
  const parts = new Map<string, string>();
  let size = 0;
  let broken = false;
  const unzip = new Unzip((file) => {
    const chunks: Uint8Array[] = [];
    file.ondata = (error, chunk, last) => {
      size += chunk?.length ?? 0;
      if (error || size > most) {
        broken = true;
        return file.terminate();
      }
      chunks.push(chunk);
      if (last) parts.set(file.name, file.name.endsWith('.bin') ? '' : strFromU8(Buffer.concat(chunks)));
    };
    file.start();
  });
  unzip.register(UnzipInflate);
  try {
    for (let at = 0; at < bytes.length && !broken; at += 65_536) unzip.push(bytes.subarray(at, at + 65_536), at + 65_536 >= bytes.length);
  } catch {
    return undefined;
  }
  return broken ? undefined : parts;
}

function refused(reason: string): WorkbookRead {
  return { kind: 'refused', reason };
}
