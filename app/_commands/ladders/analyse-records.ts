import type { CsvFault, CsvRow } from '@/lib/exchange/csv-table';
import { readLadderRows } from '@/lib/exchange/read-ladders-csv';
import { withPhases } from '@/lib/exchange/read-phases-csv';
import { strayRow, withPieces } from '@/lib/exchange/read-pieces-csv';
import { groupedBy } from '@/lib/record/grouped-by';
import type { PatientRecord } from '@/lib/record/patient-record';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { LaddersByPatient } from './ladders-by-patient';

/** The files of one analysis: ladders, and the rows of pieces and of phases by patient. */
export type GivenRecords = {
  readonly ladders: LaddersByPatient;
  readonly pieces: ReadonlyMap<string, readonly CsvRow[]>;
  readonly phases: ReadonlyMap<string, readonly CsvRow[]>;
};

/** The first fault of each kind among some patients: a bad row of the ladders, a ladder that cannot stand, a bad row of pieces, of phases. */
export type Faults = { readonly [kind in 'row' | 'ladder' | 'piece' | 'phase']?: CsvFault };

/** A fault, and in which of the files. */
export type FoundFault = { readonly of: 'ladders' | 'pieces' | 'phases'; readonly fault: CsvFault };

/** Rows by the patient they are about. */
export function rowsByPatient(rows: readonly CsvRow[]): ReadonlyMap<string, readonly CsvRow[]> {
  return groupedBy(rows, (row) => row.cell('patient'));
}

/** The records of some patients, one at a time, and what is wrong with them; of a patient with a fault no record comes. */
export function* recordsOf(
  { ladders, pieces, phases }: GivenRecords,
  references: readonly string[],
  today: CalendarDay,
): Generator<{ readonly record: PatientRecord | undefined; readonly faults: Faults }> {
  for (const reference of references) {
    const { records, faults, ofRows } = readLadderRows(ladders.rowsOf(reference), today, 'kept');
    const [record] = records;
    const [first] = faults;
    const ofLadders: Faults = first ? { [ofRows > 0 ? 'row' : 'ladder']: first } : {};
    if (!record) {
      yield { record: undefined, faults: ofLadders };
      continue;
    }
    const pieced = withPieces(record, pieces.get(reference) ?? []);
    const phased = withPhases(pieced.kind === 'read' ? pieced.record : record, phases.get(reference) ?? []);
    yield {
      record: pieced.kind === 'read' && phased.kind === 'read' ? phased.record : undefined,
      faults: {
        ...ofLadders,
        ...(pieced.kind === 'fault' ? { piece: pieced.fault } : {}),
        ...(phased.kind === 'fault' ? { phase: phased.fault } : {}),
      },
    };
  }
}

/** The first fault of each kind of two groups of patients, the earlier in the file first; of ladders that cannot stand the one met first. */
export function firstOfBoth(one: Faults, other: Faults): Faults {
  const row = earlier(one.row, other.row);
  const ladder = one.ladder ?? other.ladder;
  const piece = earlier(one.piece, other.piece);
  const phase = earlier(one.phase, other.phase);
  return { ...(row && { row }), ...(ladder && { ladder }), ...(piece && { piece }), ...(phase && { phase }) };
}

/** What is wrong with pieces and phases of patients that are not in the ladders. */
export function strayFaults({ ladders, pieces, phases }: GivenRecords): Faults {
  const known = new Set(ladders.references);
  const strayOf = (rows: ReadonlyMap<string, readonly CsvRow[]>) =>
    strayRow([...rows.values()].flat(), (reference) => known.has(reference));
  const [piece, phase] = [strayOf(pieces), strayOf(phases)];
  return { ...(piece && { piece }), ...(phase && { phase }) };
}

/** The fault that is said of all: of the ladders before those of the pieces, and those before the phases. Undefined when all is good. */
export function faultToSay({ row, ladder, piece, phase }: Faults): FoundFault | undefined {
  const ofLadders = row ?? ladder;
  if (ofLadders) return { of: 'ladders', fault: ofLadders };
  return piece ? { of: 'pieces', fault: piece } : phase && { of: 'phases', fault: phase };
}

function earlier(one: CsvFault | undefined, other: CsvFault | undefined): CsvFault | undefined {
  if (!one || !other) return one ?? other;
  return one.line <= other.line ? one : other;
}
