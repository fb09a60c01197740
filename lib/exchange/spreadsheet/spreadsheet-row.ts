import type { CsvFault, CsvRow } from '../csv-table';
import type { LADDER_COLUMNS } from '../ladder-cells';
import type { Mapping } from './mapping';
import { spreadsheetDay } from './spreadsheet-day';
import { namesUnit } from './unit-in-text';

/** A column of the ladders file. */
export type LadderColumn = (typeof LADDER_COLUMNS)[number];

/** A spreadsheet as rows of the ladders file, and what is wrong with the table as a whole, so that nobody is read from it. */
export type TranslatedRows = { readonly rows: readonly CsvRow[]; readonly faults: readonly CsvFault[] };

/** The name of a column as people see it in a spreadsheet: its heading and its letter. Example: the third column `8` is `8 (column C)`. */
export function columnName(index: number, heading: string): string {
  let letters = '';
  for (let rest = index; rest >= 0; rest = Math.floor(rest / 26) - 1) letters = String.fromCharCode(65 + (rest % 26)) + letters;
  return heading === '' ? `column ${letters}` : `${heading} (column ${letters})`;
}

/** A row of the ladders file that came from a spreadsheet: a refusal names the cell there. */
export function spreadsheetRow(
  line: number,
  cells: Readonly<Partial<Record<LadderColumn, string>>>,
  names: Readonly<Partial<Record<string, string>>>,
): CsvRow {
  return { line, cell: (column) => cells[column as LadderColumn] ?? '', named: (column) => names[column] ?? column };
}

/** A row that cannot be read, of the patient it spoils. */
export function spoiltRow(line: number, patient: string, column: string, reason: string): CsvRow {
  return { line, cell: (name) => (name === 'patient' ? patient : ''), fault: { line, column, reason } };
}

/** A day in the order of the mapping, as the ladders file writes it; or why not. */
export function isoDay(text: string, mapping: Mapping): { readonly day: string } | { readonly reason: string } {
  if (mapping.dayOrder === null) return { reason: 'Choose the order of day and month.' };
  const reading = spreadsheetDay(text, mapping.dayOrder, mapping.lastYear);
  return reading.kind === 'read' ? { day: reading.value } : { reason: reading.reason };
}

/** A figure with the unit of the mapping where it names none. */
export function withUnitOf(text: string, unit: string): string {
  return text === '' || namesUnit(text) ? text : `${text} ${unit}`;
}

/** Whether a side counts as affected by the mapping. */
export function isAffectedSide(side: string, { affected }: Mapping): 'yes' | 'no' {
  return affected === 'both' || affected === side ? 'yes' : 'no';
}
