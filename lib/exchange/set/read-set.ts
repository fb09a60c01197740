import { groupedBy } from '../../record/grouped-by';
import type { PatientFile } from '../../record/patient-file';
import { type CsvFault, CsvRefusal, type CsvRow, csvRows } from '../csv-table';
import { readPhases } from '../read-phases-csv';
import { checkSet, TALLY } from './check-set';
import { DEFUSED, DICTIONARY_FILE, fileNameOf, RESEARCH, WRITTEN } from './data-dictionary';
import { isWords, undefused } from './defused';
import { KEPT_QUESTION, LADDER, LANDMARK, RUNG } from './ladder-tables';
import { NAMED_MEASURE } from './measure-table';
import { BOOKED, FOR_THE_WORK, LEFT, OBSERVED, readBooked, readForTheWork, readLeft, readObserved } from './noted-tables';
import { CAUTION, EVENT, ORDER, PHASE, PIECE } from './piece-tables';
import { readCautions, readEvents, readOrders, readPieces } from './read-piece-tables';
import { readDetails, readVisits } from './read-visit-tables';
import { FAMILY_REPLIED, readReplied } from './reply-table';
import type { RowsOf, SetTable } from './set-table';
import { type SetTally, sumOfTable } from './set-tally';
import { BODY_MEASURE, SUBJECT, VISIT } from './visit-tables';

/** The tables that are read back; what the engine found is worked out anew. */
const READ = [
  ...[SUBJECT, VISIT, BODY_MEASURE, NAMED_MEASURE, LADDER, RUNG, LANDMARK, KEPT_QUESTION, PIECE, ORDER, EVENT, PHASE, CAUTION],
  ...[FOR_THE_WORK, BOOKED, OBSERVED, LEFT, FAMILY_REPLIED],
];

/** Tables that sets did not have from the start. */
const YOUNGER = [PHASE, NAMED_MEASURE, FOR_THE_WORK, BOOKED, OBSERVED, LEFT, FAMILY_REPLIED];

/**
 * The patients of a set as `linesOf` wrote them, to the typed text; or the first fault in it.
 *
 * A set is first held against itself (`checkSet`). Refuses a set without its dictionary or one of its tables, a research set (it has no names and no days to read back), and any cell that
 * does not hold what its column says. Shape: file names with their texts.
 */
export function readSet(
  files: ReadonlyMap<string, string>,
): { readonly kind: 'read'; readonly patients: readonly PatientFile[] } | { readonly kind: 'fault'; readonly fault: CsvFault } {
  try {
    const style = readStyle(files.get(DICTIONARY_FILE));
    const there = READ.filter((table) => !isYounger(table, files, style.written));
    const tables = new Map(there.map((table) => [table, rowsOfTable(table, files.get(fileNameOf(table)), style.defused)]));
    checkSet(tables, style.written);
    const rowsOf = rowsByOwner(tables);
    return { kind: 'read', patients: rowsOf(SUBJECT).map((subject) => patientOf(subject, rowsOf)) };
  } catch (error) {
    if (error instanceof CsvRefusal) return { kind: 'fault', fault: error.fault };
    throw error;
  }
}

/**
 * What is said of a set that another program changed and that reads all the same: which tables are not as they were written. The exact figures
 * beside the typed ones agree, or the set would have been refused; the words of a figure may be others (`26.75` for `26 3/4`).
 */
export function saidOfSet(files: ReadonlyMap<string, string>): readonly string[] {
  const written = TALLY.safeParse(jsonObject(files.get(DICTIONARY_FILE) ?? '')?.[WRITTEN]).data;
  const changed = READ.filter((table) => {
    const [sum, text] = [written?.sums?.[table.name], files.get(fileNameOf(table))];
    return sum !== undefined && text !== undefined && sumOfTable(text) !== sum;
  });
  if (changed.length === 0) return [];
  return [
    `Another program changed ${changed.map(fileNameOf).join(', ')} since the set was written. Every exact figure agrees with what stands beside it, but figures may be worded otherwise (26.75 for 26 3/4), and words may have changed.`,
  ];
}

function patientOf(subject: CsvRow, rowsOf: RowsOf): PatientFile {
  const id = subject.cell('subject_id');
  const details = readDetails(subject);
  const visits = readVisits(id, rowsOf);
  return {
    details,
    visits,
    pieces: readPieces(rowsOf(PIECE, 'subject_id', id)),
    orders: readOrders(rowsOf(ORDER, 'subject_id', id)),
    events: readEvents(rowsOf(EVENT, 'subject_id', id)),
    phases: readPhases(rowsOf(PHASE, 'subject_id', id), { born: details.born, visits }),
    cautions: readCautions(rowsOf(CAUTION, 'subject_id', id)),
    ...readForTheWork(rowsOf(FOR_THE_WORK, 'subject_id', id), details.born),
    ...readBooked(rowsOf(BOOKED, 'subject_id', id)),
    ...readObserved(rowsOf(OBSERVED, 'subject_id', id)),
    ...readLeft(rowsOf(LEFT, 'subject_id', id)),
    ...readReplied(rowsOf(FAMILY_REPLIED, 'subject_id', id)),
    writings: [],
  };
}

/** A table that sets did not have before, and that this one was not written with. */
function isYounger(table: SetTable, files: ReadonlyMap<string, string>, written: SetTally | undefined): boolean {
  return YOUNGER.includes(table) && !files.has(fileNameOf(table)) && written?.rows[table.name] === undefined;
}

function readStyle(dictionary: string | undefined): { readonly defused: boolean; readonly written: SetTally | undefined } {
  const refuse = (reason: string) => new CsvRefusal({ file: DICTIONARY_FILE, line: 1, column: '', reason });
  if (dictionary === undefined) throw refuse('The set has no dictionary: without it nobody knows how it was written.');
  const said = jsonObject(dictionary);
  if (!said) throw refuse('The dictionary is not JSON.');
  if (said[RESEARCH] === true) throw refuse('This set was written for research, without names and days. It cannot be read back.');
  return { defused: said[DEFUSED] === true, written: TALLY.safeParse(said[WRITTEN]).data };
}

function jsonObject(text: string): Readonly<Record<string, unknown>> | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null ? { ...value } : undefined;
  } catch {
    return undefined;
  }
}

function rowsOfTable(table: SetTable, text: string | undefined, wasDefused: boolean): readonly CsvRow[] {
  const file = fileNameOf(table);
  if (text === undefined) throw new CsvRefusal({ file, line: 1, column: '', reason: 'This table is missing from the set.' });
  const words = new Set(table.columns.filter(({ kind }) => isWords(kind)).map(({ name }) => name));
  return rowsIn(file, text, table).map(({ line, cell }) => ({
    file,
    line,
    cell: (column) => (wasDefused && words.has(column) ? undefused(cell(column)) : cell(column)),
  }));
}

/** The columns of a table; those it did not have from the start only where its header has one of the same addition. */
function columnsExpected({ columns }: SetTable, text: string): readonly string[] {
  const header = text.split(/\r?\n/, 1)[0] ?? '';
  const added = new Set(columns.flatMap(({ name, younger }) => (younger && header.includes(name) ? [younger] : [])));
  const known = columns.filter(({ younger }) => !younger || added.has(younger));
  return known.map(({ name }) => name);
}

function rowsIn(file: string, text: string, table: SetTable): readonly CsvRow[] {
  if (/^\ufeff?"?subject_id"?[;\t]/.test(text)) {
    const reason =
      'A spreadsheet program parted this table by semicolons or tabs when it saved it, and may have changed figures. Bring in the set as it was written, or take it out as a workbook.';
    throw new CsvRefusal({ file, line: 1, column: '', reason });
  }
  try {
    return csvRows(text, columnsExpected(table, text), true);
  } catch (error) {
    throw error instanceof CsvRefusal ? new CsvRefusal({ ...error.fault, file }) : error;
  }
}

/** All rows of a table, or those whose column names the owner; each table is grouped once. */
function rowsByOwner(tables: ReadonlyMap<SetTable, readonly CsvRow[]>): RowsOf {
  const grouped = new Map<string, ReadonlyMap<string, readonly CsvRow[]>>();
  return (table, column, owner) => {
    const rows = tables.get(table) ?? [];
    if (column === undefined) return rows;
    const key = `${table.name} ${column}`;
    const groups = grouped.get(key) ?? groupedBy(rows, (row) => row.cell(column));
    grouped.set(key, groups);
    return groups.get(owner ?? '') ?? [];
  };
}
