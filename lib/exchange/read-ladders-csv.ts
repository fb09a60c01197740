import type { Rung } from '../ladder/ladder';
import type { LimbKind, Side } from '../ladder/limb';
import type { Part } from '../parts/measure';
import type { LimbSide, PartOfSide, PatientRecord } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';
import type { LengthUnit } from '../units/length';
import { type CsvFault, CsvRefusal, type CsvRow, csvRows } from './csv-table';
import { LADDER_COLUMNS, LADDER_WORDS, landmarkCell, zeroCell } from './ladder-cells';
import { type LadderDraft, ladderFrom } from './ladder-of-rows';
import { limbCell, type MeasureRows, measureOfRow, partOfRow } from './named-measure-row';
import { girthCell, lengthCell, oneOfCell, refuseCell } from './read-cells';
import { undefused } from './set/defused';
import { type OfRow, type PatientDraft, type VisitDraft, visitReader } from './visit-of-rows';

/**
 * Patient records from the text of a ladders file, or the first fault in it: line, column, reason.
 *
 * Rows of one patient, day and time are one visit, a row without a time goes with the day's last; rows of one limb and side in it are one ladder, all from one zero in one unit.
 * Direction follows from the zero: up from the distal landmark, down from the proximal one, else from the landmarks that were taped.
 * Refuses a day before birth or after today, and whatever contradicts an earlier row of the same patient, visit or ladder. Nothing is guessed and nothing is dropped.
 * Source: the file layout of the command line (README).
 */
export function readLaddersCsv(
  text: string,
  today: CalendarDay,
  measures: MeasureRows = 'refused',
): { kind: 'read'; records: PatientRecord[] } | { kind: 'fault'; fault: CsvFault } {
  try {
    const { records, faults } = readLadderRows(csvRows(text, LADDER_COLUMNS), today, measures);
    const [fault] = faults;
    return fault ? { kind: 'fault', fault } : { kind: 'read', records: [...records] };
  } catch (error) {
    if (error instanceof CsvRefusal) return { kind: 'fault', fault: error.fault };
    throw error;
  }
}

/** The patient a row of a ladders file is about, as the reader takes it. */
export function patientOfRow(row: CsvRow): string {
  return withPlainWords(row).cell('patient');
}

function withPlainWords(row: CsvRow): CsvRow {
  return { ...row, cell: (column) => (LADDER_WORDS.includes(column) ? undefused(row.cell(column)) : row.cell(column)) };
}

/** The records of the patients whose rows are all good, and every fault of the others, in the order of the rows; `ofRows` of them were found row by row, the rest on whole ladders. */
export function readLadderRows(
  rows: readonly CsvRow[],
  today: CalendarDay,
  measures: MeasureRows = 'refused',
): {
  readonly records: readonly PatientRecord[];
  readonly faults: readonly CsvFault[];
  readonly ofRows: number;
} {
  const patients = new Map<string, PatientDraft>();
  const spoilt = new Set<string>();
  const faults: CsvFault[] = [];
  const orFault = <T>(reference: string, read: () => T): T | undefined => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof CsvRefusal)) throw error;
      spoilt.add(reference);
      faults.push(error.fault);
      return undefined;
    }
  };
  const visits = visitReader(patients, today);
  for (const defusedRow of rows) {
    const row = withPlainWords(defusedRow);
    orFault(row.cell('patient'), () => readRow(row, visits(row), measures));
  }
  const ofRows = faults.length;
  const records = [...patients.values()].flatMap((patient) => orFault(patient.reference, () => recordOf(patient)) ?? []);
  return { records: records.filter(({ reference }) => !spoilt.has(reference)), faults, ofRows };
}

function readRow(row: CsvRow, { patient, visit }: OfRow, measures: MeasureRows): void {
  const part = measures === 'kept' ? partOfRow(row) : undefined;
  if (part) addMeasure(row, part, patient, visit);
  else readPlace(row, limbCell(row, measures), patient, visit);
}

function readPlace(row: CsvRow, limb: LimbKind, patient: PatientDraft, visit: VisitDraft): void {
  const side = oneOfCell(row, 'side', ['left', 'right'] as const);
  noteAffected(row, patient, { limb, side }, oneOfCell(row, 'affected', ['yes', 'no'] as const) === 'yes');
  const ladder = ladderOf(row, visit, limb, side);
  const distance = lengthCell(row, 'distance', ladder.unit, true);
  const landmark = landmarkCell(row, limb);
  const girth = row.cell('girth') === '' ? null : girthCell(row, ladder.unit);
  if (landmark) {
    if (landmark === ladder.zero && distance.nm !== 0)
      refuseCell(row, 'landmark', `The zero of this ladder is the ${landmark}; it cannot lie at ${distance.text} too.`);
    if (ladder.landmarks.some((one) => one.landmark === landmark))
      refuseCell(row, 'landmark', `The ${landmark} stands twice on this ladder.`);
    if (landmark !== ladder.zero) ladder.landmarks.push({ landmark, distance });
  }
  const note = row.cell('note');
  if (!girth && !landmark && note === '') refuseCell(row, 'girth', 'No girth, no landmark and no note: this row says nothing.');
  if (girth || note !== '') addRung(row, ladder, note === '' ? { distance, girth } : { distance, girth, note });
}

/** A place may have one row with its girth and others that only note or name it; two girths at one place are refused. */
function addRung(row: CsvRow, ladder: LadderDraft, rung: Rung): void {
  const index = ladder.rungs.findIndex((one) => one.distance.nm === rung.distance.nm);
  const known = ladder.rungs[index];
  if (!known) {
    ladder.rungs.push(rung);
    return;
  }
  if (known.girth && rung.girth) refuseCell(row, 'distance', `Distance ${rung.distance.text} stands twice on this ladder.`);
  const notes = [known.note, rung.note].filter((note) => note !== undefined).join('; ');
  const kept = known.girth ? known : rung;
  ladder.rungs[index] = notes === '' ? kept : { ...kept, note: notes };
}

function noteAffected(row: CsvRow, patient: PatientDraft, of: LimbSide | PartOfSide, affected: boolean): void {
  const key = `${of.side} ${'limb' in of ? of.limb : of.part}`;
  const known = patient.affected.get(key);
  if (known && known.affected !== affected)
    refuseCell(row, 'affected', `An earlier row says ${known.affected ? 'yes' : 'no'} for the ${key}.`);
  patient.affected.set(key, { of, affected });
}

/** One named measure of a visit; it stands once a day on each side, under whichever part and at whatever hour. */
function addMeasure(row: CsvRow, part: Part, patient: PatientDraft, visit: VisitDraft): void {
  const { taken, affected } = measureOfRow(row, part);
  const { measure, side } = taken;
  if (affected !== undefined) noteAffected(row, patient, { part, side }, affected);
  const ofDay = patient.visits.filter(({ day }) => day === visit.day).flatMap(({ measures }) => measures);
  if (ofDay.some((one) => one.measure === measure && one.side === side))
    refuseCell(row, 'landmark', `The ${measure} (${side}) stands twice on ${visit.day}.`);
  visit.measures.push(taken);
}

function ladderOf(row: CsvRow, visit: VisitDraft, limb: LimbKind, side: Side): LadderDraft {
  const zero = zeroCell(row, limb);
  const unit: LengthUnit = oneOfCell(row, 'unit', ['in', 'cm'] as const);
  const known = visit.ladders.find((ladder) => ladder.limb === limb && ladder.side === side);
  if (!known) {
    const fresh: LadderDraft = { limb, side, zero, direction: 'up', unit, rungs: [], landmarks: [], floorToFold: null, firstRow: row };
    visit.ladders.push(fresh);
    return fresh;
  }
  if (known.zero !== zero) refuseCell(row, 'zero', `An earlier row of this ladder starts at ${known.zero}.`);
  if (known.unit !== unit) refuseCell(row, 'unit', `An earlier row of this ladder is in ${known.unit}.`);
  return known;
}

function recordOf(patient: PatientDraft): PatientRecord {
  const visits = patient.visits
    .map(({ measures, ...visit }) => ({ ...visit, ladders: visit.ladders.map(ladderFrom), ...(measures.length > 0 ? { measures } : {}) }))
    .sort((one, other) => `${one.day} ${one.time ?? ''}`.localeCompare(`${other.day} ${other.time ?? ''}`));
  const all = [...patient.affected.values()].filter((one) => one.affected).map(({ of }) => of);
  const affected = all.filter((one) => 'limb' in one);
  const parts = all.filter((one) => 'part' in one);
  const { reference, born, sex } = patient;
  return { reference, born, sex, affected, ...(parts.length > 0 ? { affectedParts: parts } : {}), visits, pieces: [] };
}
