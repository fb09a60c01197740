import type { CsvFault, CsvRow } from '@/lib/exchange/csv-table';
import { readLadderRows } from '@/lib/exchange/read-ladders-csv';
import { strayPiece, withPieces } from '@/lib/exchange/read-pieces-csv';
import { groupedBy } from '@/lib/record/grouped-by';
import type { PatientRecord } from '@/lib/record/patient-record';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { LaddersByPatient } from './ladders-by-patient';

/** The files of one analysis: ladders, and the rows of pieces. */
export type GivenRecords = { readonly ladders: LaddersByPatient; readonly pieces: readonly CsvRow[] };

/** A fault, and in which of the files. */
export type FoundFault = { readonly of: 'ladders' | 'pieces'; readonly fault: CsvFault };

/**
 * The first fault of the files: the first bad row of the ladders, else the first ladder that cannot stand, else the first bad row of the
 * pieces. Undefined when all is good. Goes through the patients one by one; `good` is told each of them that has none.
 */
export function firstFault(
  { ladders, pieces }: GivenRecords,
  today: CalendarDay,
  good: (record: PatientRecord) => void = () => {},
): FoundFault | undefined {
  const rowsOf = groupedBy(pieces, (row) => row.cell('patient'));
  let ofRow: CsvFault | undefined;
  let ofLadder: CsvFault | undefined;
  const known = new Set(ladders.references);
  let ofPiece = strayPiece(pieces, (reference) => known.has(reference));
  for (const reference of ladders.references) {
    const { records, faults, ofRows } = readLadderRows(ladders.rowsOf(reference), today);
    const [first] = faults;
    if (first && ofRows > 0) ofRow = earlier(ofRow, first);
    else if (first) ofLadder ??= first;
    const [record] = records;
    if (!record) continue;
    const read = withPieces(record, rowsOf.get(reference) ?? []);
    if (read.kind === 'fault') ofPiece = earlier(ofPiece, read.fault);
    else good(read.record);
  }
  const found = ofRow ?? ofLadder;
  return found ? { of: 'ladders', fault: found } : ofPiece && { of: 'pieces', fault: ofPiece };
}

function earlier(one: CsvFault | undefined, other: CsvFault): CsvFault {
  return one && one.line <= other.line ? one : other;
}

/** The records of files without a fault, one at a time. */
export function* recordsOneByOne({ ladders, pieces }: GivenRecords, today: CalendarDay): Generator<PatientRecord> {
  const rowsOf = groupedBy(pieces, (row) => row.cell('patient'));
  for (const reference of ladders.references) {
    for (const record of readLadderRows(ladders.rowsOf(reference), today).records) {
      const read = withPieces(record, rowsOf.get(reference) ?? []);
      if (read.kind === 'read') yield read.record;
    }
  }
}
