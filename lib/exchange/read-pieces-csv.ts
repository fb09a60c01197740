import { isLandmarkOf, type LimbKind } from '../ladder/limb';
import type { CoverEnd, PatientRecord, Piece, ReductionConvention } from '../record/patient-record';
import type { TypedLength } from '../units/length';
import { readLength } from '../units/read-length';
import { readNumber } from '../units/read-number';
import { type CsvFault, CsvRefusal, type CsvRow, csvRows } from './csv-table';
import { accepted, dayCell, filledCell, lengthWithUnitCell, oneOfCell, optionalDayCell, refuseCell, wholeDaysCell } from './read-cells';

/** Columns of a pieces file, one row a garment. */
export const PIECE_COLUMNS = [
  'patient',
  'piece',
  'limb',
  'side',
  'covers',
  'cut_from',
  'reduction',
  'convention',
  'allowance',
  'first_worn',
  'life_days',
  'lead_days',
  'retired',
] as const;

/**
 * The records with the pieces of a pieces file, or the first fault in it: line, column, reason.
 *
 * Refuses a patient that the ladders file does not have, a piece named twice for one patient, a cut-from day without a ladder of that
 * limb, and dates that run backwards. Shape: the text and the records of the ladders file; records with pieces.
 * Source: the file layout of the command line (README).
 */
export function readPiecesCsv(
  text: string,
  records: readonly PatientRecord[],
): { kind: 'read'; records: PatientRecord[] } | { kind: 'fault'; fault: CsvFault } {
  try {
    const byReference = new Map(records.map((record) => [record.reference, record]));
    const pieces = new Map<string, Piece[]>();
    for (const row of csvRows(text, PIECE_COLUMNS)) addPiece(row, byReference.get(row.cell('patient')), pieces);
    return { kind: 'read', records: records.map((record) => ({ ...record, pieces: pieces.get(record.reference) ?? [] })) };
  } catch (error) {
    if (error instanceof CsvRefusal) return { kind: 'fault', fault: error.fault };
    throw error;
  }
}

function addPiece(row: CsvRow, record: PatientRecord | undefined, pieces: Map<string, Piece[]>): void {
  const reference = filledCell(row, 'patient');
  if (!record) throw refuseCell(row, 'patient', `No ladder of ${reference} stands in the ladders file.`);
  const own = pieces.get(reference) ?? [];
  const piece = readPiece(row, record);
  if (own.some((one) => one.piece === piece.piece)) refuseCell(row, 'piece', `Piece ${piece.piece} of ${reference} stands twice.`);
  pieces.set(reference, [...own, piece]);
}

/** The rows of a pieces file, cut and named; refuses (CsvRefusal) what is no such file. */
export function pieceRows(text: string): readonly CsvRow[] {
  return csvRows(text, PIECE_COLUMNS);
}

/** One patient with the pieces of their rows, or the first fault in them; for files whose patients are read one by one. */
export function withPieces(
  record: PatientRecord,
  rows: readonly CsvRow[],
): { kind: 'read'; record: PatientRecord } | { kind: 'fault'; fault: CsvFault } {
  try {
    const pieces = new Map<string, Piece[]>();
    for (const row of rows) addPiece(row, record, pieces);
    return { kind: 'read', record: { ...record, pieces: pieces.get(record.reference) ?? [] } };
  } catch (error) {
    if (error instanceof CsvRefusal) return { kind: 'fault', fault: error.fault };
    throw error;
  }
}

/** What is wrong with the first row that names nobody, or none of these patients; undefined when every row does. */
export function strayRow(rows: readonly CsvRow[], isKnown: (reference: string) => boolean): CsvFault | undefined {
  const row = rows.find((one) => !isKnown(one.cell('patient')));
  if (!row) return undefined;
  const reference = row.cell('patient');
  const reason = reference === '' ? 'This cell is empty.' : `No ladder of ${reference} stands in the ladders file.`;
  return { line: row.line, column: 'patient', reason };
}

function readPiece(row: CsvRow, record: PatientRecord): Piece {
  const limb = oneOfCell(row, 'limb', ['leg', 'arm'] as const);
  const side = oneOfCell(row, 'side', ['left', 'right'] as const);
  const cutFrom = dayCell(row, 'cut_from');
  const ladder = record.visits.find((visit) => visit.day === cutFrom)?.ladders.find((one) => one.limb === limb && one.side === side);
  if (!ladder) return refuseCell(row, 'cut_from', `No ladder of the ${side} ${limb} on ${cutFrom}.`);
  const firstWorn = optionalDayCell(row, 'first_worn');
  if (firstWorn && firstWorn < cutFrom) refuseCell(row, 'first_worn', `Worn before it was made to the ladder of ${cutFrom}.`);
  const retired = optionalDayCell(row, 'retired');
  if (retired && retired < (firstWorn ?? cutFrom)) refuseCell(row, 'retired', 'Retired before it was worn.');
  return {
    piece: filledCell(row, 'piece'),
    limb,
    side,
    covers: coversCell(row, limb, ladder.unit),
    cutFrom,
    reductionPct: reductionCell(row),
    convention: oneOfCell<ReductionConvention>(row, 'convention', ['C(1-r)', 'C/(1+r)']),
    allowance: allowanceCell(row),
    firstWorn,
    lifeDays: wholeDaysCell(row, 'life_days'),
    leadDays: wholeDaysCell(row, 'lead_days'),
    retired,
  };
}

function coversCell(row: CsvRow, limb: LimbKind, unit: TypedLength['unit']): Piece['covers'] {
  const text = filledCell(row, 'covers');
  const ends = text.split(' to ').map((end) => end.trim());
  if (ends.length !== 2) return refuseCell(row, 'covers', `“${text}” is not two ends joined by “ to ”.`);
  const end = (one: string): CoverEnd => {
    if (isLandmarkOf(limb, one)) return one;
    if (/^[a-z]/i.test(one)) return refuseCell(row, 'covers', `“${one}” is not a landmark of the ${limb}.`);
    return accepted(row, 'covers', readLength(one, unit));
  };
  return { from: end(ends[0] ?? ''), to: end(ends[1] ?? '') };
}

function reductionCell(row: CsvRow): number {
  const text = filledCell(row, 'reduction').replace(/%$/, '');
  const { numerator, denominator } = accepted(row, 'reduction', readNumber(text));
  const value = Number(numerator) / Number(denominator);
  if (!(value > 0 && value < 60))
    return refuseCell(row, 'reduction', `A reduction of ${text} per cent is not one that is cut. Write 15 for 15 per cent.`);
  return value;
}

function allowanceCell(row: CsvRow): TypedLength | null {
  const text = filledCell(row, 'allowance');
  return /^0+([.,]0+)?(\s*(in|cm|mm))?$/.test(text) ? null : lengthWithUnitCell(row, 'allowance');
}
