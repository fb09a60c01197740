import type { CsvRow } from '../csv-table';
import type { Mapping, Role } from './mapping';
import { isoDay, type LadderColumn, spoiltRow, withUnitOf } from './spreadsheet-row';
import { sexOf } from './words-of-cells';

/** The cells of a row by what they hold, and what each is called in a sentence. */
export type RowCells = { readonly line: number; readonly cellOf: (role: Role) => string; readonly nameOf: (role: Role) => string };

/** What a row says of the patient and the visit, as columns of the ladders file; or the row that names the day that cannot be read. */
export function visitCells(
  { line, cellOf, nameOf }: RowCells,
  mapping: Mapping,
): Partial<Record<LadderColumn, string>> | { readonly spoilt: CsvRow } {
  const patient = cellOf('reference') || mapping.reference;
  const day = isoDay(cellOf('day'), mapping);
  if ('reason' in day) return { spoilt: spoiltRow(line, patient, nameOf('day'), day.reason) };
  const born = cellOf('born') === '' ? { day: mapping.born } : isoDay(cellOf('born'), mapping);
  if ('reason' in born) return { spoilt: spoiltRow(line, patient, nameOf('born'), born.reason) };
  return {
    patient,
    born: born.day,
    sex: sexOf(cellOf('sex')) || mapping.sex,
    day: day.day,
    time: cellOf('time'),
    posture: cellOf('posture'),
    measurer: cellOf('measurer'),
    height: withUnitOf(cellOf('height'), mapping.heightUnit),
    weight: withUnitOf(cellOf('weight'), mapping.weightUnit),
  };
}
