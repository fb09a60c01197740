import type { Ladder, Rung } from '../ladder/ladder';
import { ownMeasureCell } from '../parts/own-measure-schema';
import { isAffected, type NamedMeasure, type PatientRecord, type Visit } from '../record/patient-record';
import type { TypedLength } from '../units/length';
import type { TypedMass } from '../units/mass';
import { csvText } from './csv-text';
import { LADDER_COLUMNS, LADDER_WORDS } from './ladder-cells';
import { defused } from './set/defused';

type Cells = Partial<Record<(typeof LADDER_COLUMNS)[number], string>>;

/**
 * Patients with their ladders as a ladders file: what `readLaddersCsv` reads back to the same record, every figure as it was typed.
 *
 * A landmark at a rung shares its row; one between rungs has a row of its own. A height or weight typed without a unit is written with
 * it. A named measure has a row of its own, a clinic's own one with its definition. Words that a spreadsheet could take for a formula get an apostrophe, which the reader takes off again. The file has no place for what is not a taped place: visits without a ladder or a named measure, notes of a visit, single readings, second tapings,
 * kept questions, the fold's height above the floor, names and events.
 * Shape: records; CSV text with a header. Source: the file layout of the command line (README); RFC 4180.
 */
export function writeLaddersCsv(records: readonly PatientRecord[]): string {
  const rows = records.flatMap((record) =>
    record.visits.flatMap((visit) => [
      ...visit.ladders.flatMap((ladder) => {
        const head = headCells(record, visit, ladder);
        return placeCells(ladder).map((cells) => ({ ...head, ...cells }));
      }),
      ...(visit.measures ?? []).map((taken) => ({ ...visitCells(record, visit), ...measureCells(record, taken) })),
    ]),
  );
  return csvText([LADDER_COLUMNS, ...rows.map((cells: Cells) => LADDER_COLUMNS.map((column) => written(column, cells[column] ?? '')))]);
}

function written(column: string, cell: string): string {
  return LADDER_WORDS.includes(column) ? defused(cell) : cell;
}

function headCells(record: PatientRecord, visit: Visit, ladder: Ladder): Cells {
  return {
    ...visitCells(record, visit),
    limb: ladder.limb,
    side: ladder.side,
    affected: isAffected(record, ladder.limb, ladder.side) ? 'yes' : 'no',
    zero: ladder.zero,
    unit: ladder.unit,
  };
}

function measureCells(record: PatientRecord, { part, side, measure, own, length, note }: NamedMeasure): Cells {
  const affected = record.affectedParts?.some((one) => one.part === part && one.side === side);
  return {
    limb: part,
    side,
    affected: affected ? 'yes' : 'no',
    girth: length.text,
    unit: length.unit,
    landmark: own ? ownMeasureCell(own) : measure,
    note: note ?? '',
  };
}

function visitCells(record: PatientRecord, visit: Visit): Cells {
  return {
    patient: record.reference,
    born: record.born,
    sex: record.sex,
    day: visit.day,
    time: visit.time ?? '',
    posture: visit.posture ?? '',
    measurer: visit.measurer ?? '',
    height: visit.height ? withUnit(visit.height) : '',
    weight: visit.weight ? withUnit(visit.weight) : '',
  };
}

/** The places of a ladder in order along the ruler: rungs, with the landmark that lies at them, and landmarks between. */
function placeCells(ladder: Ladder): Cells[] {
  const places = new Map<number, { distance: TypedLength; rung?: Rung; landmark?: string }>();
  for (const rung of ladder.rungs) if (rung.girth || rung.note) places.set(rung.distance.nm, { distance: rung.distance, rung });
  const between: Cells[] = [];
  for (const { landmark, distance } of ladder.landmarks) {
    const at = places.get(distance.nm);
    if (at?.landmark !== undefined) between.push({ distance: distance.text, landmark });
    else places.set(distance.nm, { distance, ...at, landmark });
  }
  const inOrder = [...places.values()].sort((one, other) => one.distance.nm - other.distance.nm);
  const rows = inOrder.map(({ distance, rung, landmark }) => ({
    distance: distance.text,
    girth: rung?.girth?.text ?? '',
    landmark: landmark ?? '',
    note: rung?.note ?? '',
  }));
  return [...rows, ...between];
}

/** The text as typed, with its unit where it has none: `112.5 cm`. */
function withUnit({ text, unit }: TypedLength | TypedMass): string {
  return /[a-z"″”'′’]/i.test(text) ? text : `${text} ${unit}`;
}
