import fs from 'node:fs';
import { type CsvRow, type CutRow, cutRows, namedRows } from '@/lib/exchange/csv-table';
import { LADDER_COLUMNS } from '@/lib/exchange/ladder-cells';
import { patientOfRow } from '@/lib/exchange/read-ladders-csv';
import { type CsvBlock, csvBlocks, type RecordPlace } from './csv-blocks';

/** A ladders file read a patient at a time: memory holds where each patient's rows stand, and the rows of one. */
export type LaddersByPatient = {
  /** Every patient, in the order in which they first stand in the file. */
  readonly references: readonly string[];
  readonly rows: number;
  readonly rowsOf: (reference: string) => readonly CsvRow[];
  readonly close: () => void;
};

/** Where the rows of each patient stand in a ladders file; plain data, so that a worker can be told. */
export type LaddersIndex = { readonly header: CutRow; readonly places: ReadonlyMap<string, readonly RecordPlace[]>; readonly rows: number };

/** Thrown for a file that is not UTF-8. */
export class NotText extends Error {}

const READ_AT_ONCE = 1 << 20;

/**
 * Opens a ladders file of any size and notes where each patient's rows stand, wherever in the file they are.
 *
 * Throws NotText for a file that is not UTF-8, and CsvRefusal for one that is not a ladders file, with the line. The rows themselves are
 * not judged here.
 */
export function openLadders(file: string): LaddersByPatient {
  return laddersAt(file, indexOf(file));
}

/** The index of a ladders file; throws as `openLadders` does. */
export function indexOf(file: string): LaddersIndex {
  const handle = fs.openSync(file, 'r');
  try {
    mustBeText(handle);
    const places = new Map<string, RecordPlace[]>();
    let header: CutRow | undefined;
    let rows = 0;
    for (const block of csvBlocks(handle)) {
      const cut = cutBlock(block);
      header ??= cut.shift();
      if (header) rows += notePlaces(header, cut, block, places);
    }
    if (!header || rows === 0) namedRows(header ? [header] : [], LADDER_COLUMNS);
    return { header: header ?? { cells: [], line: 1 }, places, rows };
  } finally {
    fs.closeSync(handle);
  }
}

/** A ladders file by its index. */
export function laddersAt(file: string, { header, places, rows }: LaddersIndex): LaddersByPatient {
  const handle = fs.openSync(file, 'r');
  return {
    references: [...places.keys()],
    rows,
    rowsOf: (reference) => namedRows([header, ...rowsAt(handle, places.get(reference) ?? [])], LADDER_COLUMNS),
    close: () => fs.closeSync(handle),
  };
}

function mustBeText(handle: number): void {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const chunk = Buffer.alloc(READ_AT_ONCE);
  try {
    for (let at = 0, size = 1; size > 0; at += size) {
      size = fs.readSync(handle, chunk, 0, READ_AT_ONCE, at);
      decoder.decode(chunk.subarray(0, size), { stream: size > 0 });
    }
  } catch (error) {
    throw error instanceof TypeError ? new NotText() : error;
  }
}

function cutBlock({ bytes, line }: CsvBlock): CutRow[] {
  return cutRows(bytes.toString('utf8')).map((row) => ({ cells: row.cells, line: row.line + line - 1 }));
}

function notePlaces(header: CutRow, cut: readonly CutRow[], { records }: CsvBlock, places: Map<string, RecordPlace[]>): number {
  const placeOf = new Map(records.map((place) => [place.line, place]));
  for (const row of namedRows([header, ...cut], LADDER_COLUMNS)) {
    const place = placeOf.get(row.line);
    if (!place) throw new Error(`Line ${row.line} was cut at another place than it stands.`);
    const own = places.get(patientOfRow(row)) ?? [];
    const last = own.at(-1);
    if (last?.end === place.start) own[own.length - 1] = { ...last, end: place.end };
    else own.push(place);
    places.set(patientOfRow(row), own);
  }
  return cut.length;
}

/** The rows that stand at these places, with their lines in the file. */
function rowsAt(handle: number, places: readonly RecordPlace[]): readonly CutRow[] {
  let text = '';
  let lines = 0;
  const begins: { readonly from: number; readonly line: number }[] = [];
  for (const { start, end, line } of places) {
    const bytes = Buffer.alloc(end - start);
    fs.readSync(handle, bytes, 0, bytes.length, start);
    const part = `${bytes.toString('utf8').replace(/\r\n?/g, '\n').replace(/\n$/, '')}\n`;
    begins.push({ from: lines + 1, line });
    lines += part.split('\n').length - 1;
    text += part;
  }
  let place = 0;
  return cutRows(text).map((row) => {
    while ((begins[place + 1]?.from ?? Number.POSITIVE_INFINITY) <= row.line) place += 1;
    const { from, line } = begins[place] ?? { from: 1, line: 1 };
    return { cells: row.cells, line: row.line - from + line };
  });
}
