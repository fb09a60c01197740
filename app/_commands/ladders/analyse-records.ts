import type { CsvFault, CsvRow } from '@/lib/exchange/csv-table';
import { readLadderRows } from '@/lib/exchange/read-ladders-csv';
import { withPhases } from '@/lib/exchange/read-phases-csv';
import { strayRow, withPieces } from '@/lib/exchange/read-pieces-csv';
import { groupedBy } from '@/lib/record/grouped-by';
import type { PatientRecord } from '@/lib/record/patient-record';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { LaddersByPatient } from './ladders-by-patient';

/** The files of one analysis: ladders, and the rows of pieces and of phases. */
export type GivenRecords = { readonly ladders: LaddersByPatient; readonly pieces: readonly CsvRow[]; readonly phases: readonly CsvRow[] };

/** A fault, and in which of the files. */
export type FoundFault = { readonly of: 'ladders' | 'pieces' | 'phases'; readonly fault: CsvFault };

/**
 * The first fault of the files: the first bad row of the ladders, else the first ladder that cannot stand, else the first bad row of the
 * pieces, else of the phases. Undefined when all is good. Goes through the patients one by one; `good` is told each of them that has none.
 */
export function firstFault(
  { ladders, pieces, phases }: GivenRecords,
  today: CalendarDay,
  good: (record: PatientRecord) => void = () => {},
): FoundFault | undefined {
  const piecesOf = groupedBy(pieces, (row) => row.cell('patient'));
  const phasesOf = groupedBy(phases, (row) => row.cell('patient'));
  let ofRow: CsvFault | undefined;
  let ofLadder: CsvFault | undefined;
  const known = new Set(ladders.references);
  let ofPiece = strayRow(pieces, (reference) => known.has(reference));
  let ofPhase = strayRow(phases, (reference) => known.has(reference));
  for (const reference of ladders.references) {
    const { records, faults, ofRows } = readLadderRows(ladders.rowsOf(reference), today, 'kept');
    const [first] = faults;
    if (first && ofRows > 0) ofRow = earlier(ofRow, first);
    else if (first) ofLadder ??= first;
    const [record] = records;
    if (!record) continue;
    const pieced = withPieces(record, piecesOf.get(reference) ?? []);
    const phased = withPhases(pieced.kind === 'read' ? pieced.record : record, phasesOf.get(reference) ?? []);
    if (pieced.kind === 'fault') ofPiece = earlier(ofPiece, pieced.fault);
    if (phased.kind === 'fault') ofPhase = earlier(ofPhase, phased.fault);
    if (pieced.kind === 'read' && phased.kind === 'read') good(phased.record);
  }
  const found = ofRow ?? ofLadder;
  if (found) return { of: 'ladders', fault: found };
  return ofPiece ? { of: 'pieces', fault: ofPiece } : ofPhase && { of: 'phases', fault: ofPhase };
}

function earlier(one: CsvFault | undefined, other: CsvFault): CsvFault {
  return one && one.line <= other.line ? one : other;
}

/** The records of files without a fault, one at a time. */
export function* recordsOneByOne({ ladders, pieces, phases }: GivenRecords, today: CalendarDay): Generator<PatientRecord> {
  const piecesOf = groupedBy(pieces, (row) => row.cell('patient'));
  const phasesOf = groupedBy(phases, (row) => row.cell('patient'));
  for (const reference of ladders.references) {
    for (const record of readLadderRows(ladders.rowsOf(reference), today, 'kept').records) {
      const pieced = withPieces(record, piecesOf.get(reference) ?? []);
      if (pieced.kind === 'fault') continue;
      const phased = withPhases(pieced.record, phasesOf.get(reference) ?? []);
      if (phased.kind === 'read') yield phased.record;
    }
  }
}
