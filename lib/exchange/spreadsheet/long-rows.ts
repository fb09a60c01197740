import type { CsvRow } from '../csv-table';
import { carriedDown } from './carried-down';
import type { Mapping, Role } from './mapping';
import { distanceInCell, sideIn } from './place-label';
import { columnName, isAffectedSide, type LadderColumn, spreadsheetRow, type TranslatedRows } from './spreadsheet-row';
import type { TableRow, TextTable } from './text-table';
import { visitCells } from './visit-cells';
import { limbOf } from './words-of-cells';

/**
 * A table with a row a measured place and headings of its own, as rows of the ladders file: `Patient, Date, Side, Distance (cm), Girth (cm)`.
 *
 * An empty cell of patient, day, limb or side takes the one above, as merged cells come; a distance may carry a landmark or words (`34 knee`).
 */
export function longRows({ rows }: TextTable, mapping: Mapping): TranslatedRows {
  const [header, ...body] = rows;
  if (!header) return { rows: [], faults: [] };
  return { rows: carriedDown(body, mapping).flatMap((row) => rowOf(row, header, mapping)), faults: [] };
}

function rowOf(row: TableRow, header: TableRow, mapping: Mapping): readonly CsvRow[] {
  const at = (role: Role) => mapping.roles.indexOf(role);
  const cellOf = (role: Role) => row.cells[at(role)] ?? '';
  const nameOf = (role: Role) => (at(role) < 0 ? role : columnName(at(role), header.cells[at(role)] ?? ''));
  if (cellOf('girth') === '' && cellOf('landmark') === '' && cellOf('note') === '') return [];
  const visit = visitCells({ line: row.line, cellOf, nameOf }, mapping);
  if ('spoilt' in visit) return [visit.spoilt];
  const limb = limbOf(cellOf('limb')) || mapping.limb;
  const side = sideIn(cellOf('side')).side ?? mapping.side;
  const place = distanceInCell(cellOf('distance'), limb === 'arm' ? 'arm' : 'leg', mapping.unit);
  const unit = cellOf('unit').toLowerCase() || mapping.unit;
  const cells: Partial<Record<LadderColumn, string>> = {
    ...visit,
    limb,
    side,
    affected: isAffectedSide(side, mapping),
    zero: mapping.zero,
    distance: place.distance,
    girth: cellOf('girth'),
    unit: unit.startsWith('in') ? 'in' : unit,
    landmark: place.landmark ?? limbLandmark(cellOf('landmark')),
    note: [cellOf('note'), place.words].filter((words) => words !== '').join('; '),
  };
  const names = { patient: nameOf('reference'), sex: nameOf('sex'), side: nameOf('side'), limb: nameOf('limb'), unit: nameOf('unit') };
  const more = {
    distance: nameOf('distance'),
    girth: nameOf('girth'),
    landmark: nameOf('landmark'),
    day: nameOf('day'),
    time: nameOf('time'),
  };
  return [spreadsheetRow(row.line, cells, { ...names, ...more, height: nameOf('height'), weight: nameOf('weight') })];
}

function limbLandmark(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
}
