import type { KeptDoubt, Rung } from '../../ladder/ladder';
import { isLandmarkOf, type LimbKind, type Side } from '../../ladder/limb';
import type { Part, PartSide } from '../../parts/measure';
import { groupedBy } from '../../record/grouped-by';
import type { PatientDetails } from '../../record/patient-details';
import type { FiledLadder, FiledVisit } from '../../record/patient-file';
import { type LimbSide, OCCASIONS, type PartOfSide, type SingleReading } from '../../record/patient-record';
import type { LengthUnit } from '../../units/length';
import type { CsvRow } from '../csv-table';
import { timeCell } from '../ladder-cells';
import { dayCell, filledCell, oneOfCell, refuseCell } from '../read-cells';
import { KEPT_QUESTION, LADDER, LANDMARK, RUNG } from './ladder-tables';
import { NAMED_MEASURE, readNamedMeasure } from './measure-table';
import { cellOrNull, landmarkCell, momentCell, neededLengthCells, numberCell, typedLengthCells, typedMassCells } from './read-set-cells';
import type { RowsOf } from './set-table';
import { BODY_MEASURE, VISIT } from './visit-tables';

/** A row of the subject table. */
export function readDetails(row: CsvRow): PatientDetails {
  return {
    reference: filledCell(row, 'reference'),
    name: cellOrNull(row, 'name'),
    born: dayCell(row, 'born'),
    sex: oneOfCell(row, 'sex', ['F', 'M', 'X'] as const),
    diagnosisGroup: filledCell(row, 'diagnosis_group'),
    ...affectedCell(row),
    language: filledCell(row, 'language'),
    note: cellOrNull(row, 'note'),
  };
}

function affectedCell(row: CsvRow): Pick<PatientDetails, 'affected' | 'affectedParts'> {
  const affected: LimbSide[] = [];
  const parts: PartOfSide[] = [];
  for (const words of row.cell('affected').split('; ')) {
    if (words === '') continue;
    const limb = /^(left|right) (leg|arm)$/.exec(words);
    const part = /^(left|right|middle) (hand|foot|trunk|head)$/.exec(words);
    if (limb) affected.push({ limb: limb[2] as LimbKind, side: limb[1] as Side });
    else if (part) parts.push({ part: part[2] as Part, side: part[1] as PartSide });
    else refuseCell(row, 'affected', `“${words}” is not a limb or a part. Write “left leg; right arm; left hand”.`);
  }
  return { affected, ...(parts.length > 0 ? { affectedParts: parts } : {}) };
}

/** The visits of a subject with all that hangs on them. */
export function readVisits(subjectId: string, rowsOf: RowsOf): readonly FiledVisit[] {
  return rowsOf(VISIT, 'subject_id', subjectId).map((row) => {
    const id = row.cell('visit_id');
    const head = {
      id,
      day: dayCell(row, 'day'),
      time: timeCell(row),
      posture: cellOrNull(row, 'posture'),
      measurer: cellOrNull(row, 'measurer'),
      note: cellOrNull(row, 'note'),
      occasion: row.cell('occasion') === '' ? null : oneOfCell(row, 'occasion', OCCASIONS),
    };
    const body = readBody(rowsOf(BODY_MEASURE, 'visit_id', id));
    const measures = rowsOf(NAMED_MEASURE, 'visit_id', id).map(readNamedMeasure);
    const ladders = rowsOf(LADDER, 'visit_id', id).map((ladder) => readLadder(ladder, rowsOf));
    return { ...head, ...body, ...(measures.length > 0 ? { measures } : {}), ladders };
  });
}

function readBody(rows: readonly CsvRow[]): Pick<FiledVisit, 'height' | 'weight' | 'readings' | 'keptBody'> {
  const of = (measure: string) => rows.find((row) => oneOfCell(row, 'measure', ['height', 'weight', 'reading'] as const) === measure);
  const height = of('height');
  const weight = of('weight');
  const readings = rows
    .filter((row) => row.cell('measure') === 'reading')
    .map((row): SingleReading => ({ name: filledCell(row, 'reading_name'), length: neededLengthCells(row, 'length') }));
  const keptBody = [height, weight].flatMap((row) => (row && row.cell('kept_by') !== '' ? [keptBodyCells(row)] : []));
  return {
    keptBody: keptBody.length > 0 ? keptBody : null,
    height: height ? typedLengthCells(height, 'length') : null,
    weight: weight ? typedMassCells(weight, 'weight') : null,
    readings: readings.length > 0 ? readings : null,
  };
}

function keptBodyCells(row: CsvRow): KeptDoubt {
  return { kind: row.cell('measure'), by: row.cell('kept_by'), at: momentCell(row, 'kept_at') };
}

function readLadder(row: CsvRow, rowsOf: RowsOf): FiledLadder {
  const id = row.cell('ladder_id');
  const limb = oneOfCell(row, 'limb', ['leg', 'arm'] as const);
  const kept = readKept(rowsOf(KEPT_QUESTION, 'ladder_id', id));
  return {
    limb,
    side: oneOfCell(row, 'side', ['left', 'right'] as const),
    zero: zeroCells(row, limb),
    direction: oneOfCell(row, 'direction', ['up', 'down'] as const),
    unit: oneOfCell<LengthUnit>(row, 'unit', ['in', 'cm']),
    intervalText: cellOrNull(row, 'interval_as_typed'),
    rungs: rowsOf(RUNG, 'ladder_id', id).map((one) => readRung(one, kept)),
    landmarks: rowsOf(LANDMARK, 'ladder_id', id).map((one) => ({
      landmark: landmarkCell(one, 'landmark', limb),
      distance: neededLengthCells(one, 'distance'),
    })),
    floorToFold: typedLengthCells(row, 'floor_to_fold'),
    zeroChoice: zeroChoiceCells(row),
  };
}

function zeroCells(row: CsvRow, limb: LimbKind): string {
  const landmark = row.cell('zero_landmark');
  if (landmark !== '' && !isLandmarkOf(limb, landmark)) refuseCell(row, 'zero_landmark', `“${landmark}” is not a landmark of the ${limb}.`);
  return landmark || filledCell(row, 'zero_words');
}

function zeroChoiceCells(row: CsvRow): FiledLadder['zeroChoice'] {
  if (row.cell('zero_choice') === '') return null;
  return {
    choice: oneOfCell(row, 'zero_choice', ['as-recorded', 'moved-back'] as const),
    shiftMm: numberCell(row, 'zero_shift_mm'),
    by: filledCell(row, 'zero_choice_by'),
    at: momentCell(row, 'zero_choice_at'),
  };
}

function readKept(rows: readonly CsvRow[]): ReadonlyMap<string, readonly KeptDoubt[]> {
  const answered = rows.map((row) => ({
    rung: filledCell(row, 'rung'),
    kept: { kind: filledCell(row, 'question'), by: filledCell(row, 'kept_by'), at: momentCell(row, 'kept_at') },
  }));
  return new Map([...groupedBy(answered, ({ rung }) => rung)].map(([rung, of]) => [rung, of.map(({ kept }) => kept)]));
}

function readRung(row: CsvRow, keptOf: ReadonlyMap<string, readonly KeptDoubt[]>): Rung {
  const again = typedLengthCells(row, 'again');
  const note = row.cell('note');
  const kept = keptOf.get(row.cell('rung'));
  return {
    distance: neededLengthCells(row, 'distance'),
    girth: typedLengthCells(row, 'girth'),
    ...(again && { again }),
    ...(note && { note }),
    ...(kept && { kept }),
  };
}
