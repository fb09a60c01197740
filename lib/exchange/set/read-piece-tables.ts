import { CARD_ANSWERS, type CautionFigures } from '../../record/caution-answer';
import type { Order } from '../../record/order';
import type { FiledCaution, FiledPiece } from '../../record/patient-file';
import type { PatientEvent, ReductionConvention } from '../../record/patient-record';
import { RETIRED_AS } from '../../record/piece-life';
import type { CsvRow } from '../csv-table';
import { ORDER_JSON } from '../filed-garments';
import { CAUTION_FIGURES, PIECE_PARTS } from '../filed-json';
import { dayCell, filledCell, oneOfCell, refuseCell, wholeDaysCell } from '../read-cells';
import { cellOrNull, coverEndCells, dayOrNull, jsonCell, numberCell, typedLengthCells } from './read-set-cells';

/** A subject’s pieces from their rows; a visit they were cut from is found again by its id in the set. */
export function readPieces(rows: readonly CsvRow[]): readonly FiledPiece[] {
  return rows.map((row) => {
    return {
      piece: filledCell(row, 'piece'),
      ...placeCells(row),
      cutFromVisitId: cellOrNull(row, 'cut_from_visit_id'),
      cutFrom: dayCell(row, 'cut_from'),
      reductionPct: numberCell(row, 'reduction_pct'),
      convention: oneOfCell<ReductionConvention>(row, 'convention', ['C(1-r)', 'C/(1+r)']),
      allowance: typedLengthCells(row, 'allowance'),
      lifeDays: wholeDaysCell(row, 'life_days'),
      leadDays: wholeDaysCell(row, 'lead_days'),
      order: row.cell('order') === '' ? null : numberCell(row, 'order'),
      garment: jsonCell(row, 'garment', PIECE_PARTS.garment),
      expected: dayOrNull(row, 'expected'),
      delivered: dayOrNull(row, 'delivered'),
      firstFit: dayOrNull(row, 'first_fit'),
      fit: jsonCell(row, 'fit', PIECE_PARTS.fit),
      wearIn: jsonCell(row, 'wear_in', PIECE_PARTS.wearIn),
      kept: jsonCell(row, 'kept_as', PIECE_PARTS.kept),
      alterations: jsonCell(row, 'alterations', PIECE_PARTS.alterations),
      firstWorn: dayOrNull(row, 'first_worn'),
      retired: dayOrNull(row, 'retired'),
      retiredAs: row.cell('retired_as') === '' ? null : oneOfCell(row, 'retired_as', RETIRED_AS),
      retiredReason: cellOrNull(row, 'retired_reason'),
    };
  });
}

/** Where a piece is worn and what it covers; trunk and head only of one that named measures alone make. */
function placeCells(row: CsvRow): Pick<FiledPiece, 'limb' | 'side' | 'covers'> {
  const byMeasures = row.cell('covers_from_landmark') === 'measures';
  if (byMeasures && ['trunk', 'head'].includes(row.cell('limb')))
    return {
      limb: oneOfCell(row, 'limb', ['trunk', 'head'] as const),
      side: oneOfCell(row, 'side', ['middle'] as const),
      covers: 'measures',
    };
  const limb = oneOfCell(row, 'limb', ['leg', 'arm'] as const);
  const side = oneOfCell(row, 'side', ['left', 'right'] as const);
  if (byMeasures) return { limb, side, covers: 'measures' };
  return { limb, side, covers: { from: coverEndCells(row, 'from', limb), to: coverEndCells(row, 'to', limb) } };
}

/** A subject’s orders, each whole from its JSON. */
export function readOrders(rows: readonly CsvRow[]): readonly Order[] {
  return rows.map((row) => {
    const content = jsonCell(row, 'content', ORDER_JSON) ?? refuseCell(row, 'content', 'This cell is empty.');
    return { ...content, cutFromVisitId: filledCell(row, 'cut_from_visit_id') };
  });
}

/** A subject’s events, a row each. */
export function readEvents(rows: readonly CsvRow[]): readonly PatientEvent[] {
  return rows.map((row) => ({
    day: dayCell(row, 'day'),
    kind: oneOfCell(row, 'event', ['operation', 'infection', 'therapy', 'other'] as const),
    words: row.cell('words'),
  }));
}

/** The answers to caution cards of a subject. */
export function readCautions(rows: readonly CsvRow[]): readonly FiledCaution[] {
  return rows.map((row) => ({
    card: filledCell(row, 'card'),
    cardVersion: filledCell(row, 'card_version'),
    answer: oneOfCell(row, 'answer', CARD_ANSWERS),
    day: dayCell(row, 'day'),
    words: cellOrNull(row, 'words'),
    wording: row.cell('wording'),
    figures: jsonCell<CautionFigures>(row, 'figures', CAUTION_FIGURES),
  }));
}
