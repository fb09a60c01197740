import type { CsvFault } from './csv-table';
import { csvText } from './csv-text';

/** Cells with the same reason in the same column: how many, and the first of them. */
export type FaultGroup = { readonly first: CsvFault; readonly cells: number };

/**
 * Faults of one kind together, in the order in which the first of each stands: two are of one kind when column and reason are the same but
 * for the cell's own text.
 */
export function faultGroups(faults: readonly CsvFault[]): readonly FaultGroup[] {
  const groups = new Map<string, { first: CsvFault; cells: number }>();
  for (const fault of faults) {
    const key = JSON.stringify([fault.file, fault.column, fault.reason.replace(/“[^”]*”/g, '“”')]);
    const known = groups.get(key);
    if (known) known.cells += 1;
    else groups.set(key, { first: fault, cells: 1 });
  }
  return [...groups.values()];
}

/** Every fault as a table: file, line, column, reason. */
export function faultTable(faults: readonly CsvFault[]): string {
  return csvText([
    ['file', 'line', 'column', 'reason'],
    ...faults.map(({ file = '', line, column, reason }) => [file, String(line), column, reason]),
  ]);
}
