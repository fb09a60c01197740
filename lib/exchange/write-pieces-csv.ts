import type { CoverEnd, PatientRecord, Piece } from '../record/patient-record';
import type { LengthUnit } from '../units/length';
import { csvText } from './csv-text';
import { PIECE_COLUMNS } from './read-pieces-csv';
import { withUnit } from './write-ladders-csv';

/**
 * Pieces of patients as a pieces file: what `readPiecesCsv` reads back to the same pieces beside the ladders file of the same patients.
 *
 * First-fit checks have no column. Shape: records; CSV text with a header. Source: the file layout of the command line (README); RFC 4180.
 */
export function writePiecesCsv(records: readonly PatientRecord[]): string {
  return csvText([PIECE_COLUMNS, ...records.flatMap((record) => record.pieces.map((piece) => cellsOf(record, piece)))]);
}

function cellsOf(record: PatientRecord, piece: Piece): string[] {
  const visit = record.visits.find((one) => one.day === piece.cutFrom);
  const unit = visit?.ladders.find((one) => one.limb === piece.limb && one.side === piece.side)?.unit;
  const cells: Record<(typeof PIECE_COLUMNS)[number], string> = {
    patient: record.reference,
    piece: piece.piece,
    limb: piece.limb,
    side: piece.side,
    covers: `${end(piece.covers.from, unit)} to ${end(piece.covers.to, unit)}`,
    cut_from: piece.cutFrom,
    reduction: String(piece.reductionPct),
    convention: piece.convention,
    allowance: piece.allowance ? withUnit(piece.allowance) : '0',
    first_worn: piece.firstWorn ?? '',
    life_days: String(piece.lifeDays),
    lead_days: String(piece.leadDays),
    retired: piece.retired ?? '',
  };
  return PIECE_COLUMNS.map((column) => cells[column]);
}

/** A landmark, or a distance as typed; without its unit only where the cut-from ladder has the same. */
function end(one: CoverEnd, ladderUnit: LengthUnit | undefined): string {
  if (typeof one === 'string') return one;
  return one.unit === ladderUnit ? one.text : withUnit(one);
}
