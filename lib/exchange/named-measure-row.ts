import type { LimbKind } from '../ladder/limb';
import { measureOf, measuresOfPart } from '../parts/catalogue';
import { isTakenOn, type Measure, PARTS, type Part, type PartSide } from '../parts/measure';
import { asMeasure, OWN_MEASURE_ID, withOwn } from '../parts/own-measure';
import { ownMeasureOfCell } from '../parts/own-measure-schema';
import type { NamedMeasure } from '../record/patient-record';
import type { LengthUnit } from '../units/length';
import type { CsvRow } from './csv-table';
import { filledCell, girthCell, oneOfCell, refuseCell } from './read-cells';

/** What becomes of rows whose `limb` is a part: kept where all that reads the record knows them, else refused like any other word. */
export type MeasureRows = 'kept' | 'refused';

const SIDES = ['left', 'right', 'middle'] as const;

/** The part that a row of a ladders file is about; undefined where it is about a limb, or about nothing that is known. */
export function partOfRow(row: CsvRow): Part | undefined {
  return PARTS.find((part) => part === row.cell('limb'));
}

/** The limb of a row that is about no part. */
export function limbCell(row: CsvRow, measures: MeasureRows): LimbKind {
  const isLimb = row.cell('limb') === 'leg' || row.cell('limb') === 'arm';
  if (measures === 'kept' && !isLimb) oneOfCell(row, 'limb', ['leg', 'arm', ...PARTS]);
  return oneOfCell(row, 'limb', ['leg', 'arm'] as const);
}

/** A named measure, and whether its row says that the part is affected: undefined where it says nothing. */
export type MeasureRow = { readonly taken: NamedMeasure; readonly affected: boolean | undefined };

/**
 * The named measure of a row whose `limb` is a part: `landmark` holds its id, of a clinic's own measure its definition, `girth` its value in `unit`, `side` where it was taken.
 *
 * Refuses an id that the part does not have, a side it is not taken on, anything in `zero` or `distance`, and a figure that is none.
 * `affected` may be empty. Shape: a row and its part. Source: the file layout of the command line (README).
 * Example: foot, right, `foot-length`, 24.6, cm.
 */
export function measureOfRow(row: CsvRow, part: Part): MeasureRow {
  const measure = measureCell(row, part);
  const side = sideCell(row, measure);
  for (const column of ['zero', 'distance'])
    if (row.cell(column) !== '') refuseCell(row, column, `A named measure has no ${column}. Leave this cell empty.`);
  const unit: LengthUnit = oneOfCell(row, 'unit', ['in', 'cm'] as const);
  const affected = row.cell('affected') === '' ? undefined : oneOfCell(row, 'affected', ['yes', 'no'] as const) === 'yes';
  const length = girthCell(row, unit);
  const note = row.cell('note');
  return { taken: { part, side, measure: measure.id, ...withOwn(measure), length, ...(note === '' ? {} : { note }) }, affected };
}

function measureCell(row: CsvRow, part: Part): Measure {
  const id = filledCell(row, 'landmark');
  const known = id.includes('|') ? ownOfCell(row, id) : measureOf(id);
  if (known && (known.part === part || known.alsoOf === part)) return known;
  if (known) return refuseCell(row, 'landmark', `The ${known.id} is a measure of the ${known.part}, not of the ${part}.`);
  if (OWN_MEASURE_ID.test(id))
    return refuseCell(row, 'landmark', `${id} is a clinic’s own measure: its definition goes with it (${OWN_FIELDS}).`);
  const ids = measuresOfPart(part).map((measure) => measure.id);
  return refuseCell(row, 'landmark', `“${id}” is not a measure of the ${part}: ${ids.join(', ')}.`);
}

/** The fields of a definition in the order of the cell. */
const OWN_FIELDS = 'id | name | part | kind | both or middle | least mm | most mm | SD of one reading mm | how it is taken | source';

/** A clinic's own measure by the definition in its cell. */
function ownOfCell(row: CsvRow, text: string): Measure {
  const own = ownMeasureOfCell(text);
  return own ? asMeasure(own) : refuseCell(row, 'landmark', `“${text.slice(0, 60)}” is no definition of an own measure (${OWN_FIELDS}).`);
}

function sideCell(row: CsvRow, measure: Measure): PartSide {
  const side = oneOfCell(row, 'side', SIDES);
  if (isTakenOn(measure, side)) return side;
  const wanted = measure.sides === 'both' ? 'on the left or the right' : 'once: write middle';
  return refuseCell(row, 'side', `The ${measure.id} is taken ${wanted}.`);
}
