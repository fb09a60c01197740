import type { CsvFault } from '../csv-table';
import { visitHeading } from './guess-mapping';
import type { Mapping } from './mapping';
import { type PlaceLabel, placeLabel, sideIn } from './place-label';
import { columnName, isAffectedSide, isoDay, type LadderColumn, spreadsheetRow, type TranslatedRows, withUnitOf } from './spreadsheet-row';
import type { TableRow, TextTable } from './text-table';
import { unitNamed, withoutUnit } from './unit-in-text';

/** One column that is a visit: its heading, day and side. */
type VisitColumn = { readonly index: number; readonly heading: string; readonly day: string; readonly side: string };

/**
 * A chart with a column a visit and the places down the side, as rows of the ladders file.
 *
 * The first row holds the days, each with its side where both limbs are charted (`2 Mar 2026 R`), or the second row holds the sides below
 * the days; an empty day takes its left neighbour's. Rows of height, weight, time, posture, measurer and notes belong to the visit.
 * Example: a first column `0, 8, 16` and columns `2026-03-02 R`, `2026-03-02 L` are two ladders of one visit.
 */
export function placesDownRows({ rows }: TextTable, mapping: Mapping): TranslatedRows {
  const [header, second, ...rest] = rows;
  if (!header) return { rows: [], faults: [] };
  const hasSides = second !== undefined && isRowOfSides(second, mapping);
  const body = hasSides ? rest : [...(second ? [second] : []), ...rest];
  const { columns, faults } = visitColumns(header, hasSides ? second : undefined, mapping);
  const places = body.map((row) => ({ row, label: labelOf(row, mapping) }));
  const unknown = places.flatMap(({ row, label }) =>
    label.kind === 'unknown' && columns.some(({ index }) => row.cells[index])
      ? [{ line: row.line, column: 'place', reason: label.reason }]
      : [],
  );
  return { rows: columns.flatMap((column) => rowsOfVisit(column, places, mapping)), faults: [...faults, ...unknown] };
}

function labelOf(row: TableRow, mapping: Mapping): PlaceLabel {
  return placeLabel(row.cells[mapping.roles.indexOf('place')] ?? '', mapping.limb === 'arm' ? 'arm' : 'leg', mapping.unit, mapping.zero);
}

function isRowOfSides({ cells }: TableRow, { roles }: Mapping): boolean {
  const sides = cells.filter((cell, index) => roles[index] === 'visit' && cell !== '');
  return sides.length > 0 && sides.every((cell) => sideIn(cell).side !== undefined && sideIn(cell).rest === '');
}

function visitColumns(header: TableRow, sides: TableRow | undefined, mapping: Mapping) {
  const faults: CsvFault[] = [];
  const columns: VisitColumn[] = [];
  let last = '';
  for (const [index, role] of mapping.roles.entries()) {
    if (role !== 'visit') continue;
    const heading = header.cells[index] ?? '';
    const below = sides ? sideIn(sides.cells[index] ?? '').side : undefined;
    const { side } = sideIn(withoutUnit(heading));
    const rest = visitHeading(heading);
    const otherUnit = unitNamed(sideIn(heading).rest).find((one) => mapping.unit !== '' && !one.startsWith(mapping.unit));
    const text = rest === '' && sides ? last : rest;
    last = text;
    const day = isoDay(text, mapping);
    const limbSide = below ?? side ?? mapping.side;
    if (otherUnit)
      faults.push({
        line: header.line,
        column: columnName(index, heading),
        reason: `This column is in ${otherUnit}, the table in ${mapping.unit}. Bring it in by itself, or leave it out.`,
      });
    else if ('reason' in day) faults.push({ line: header.line, column: columnName(index, heading), reason: day.reason });
    else if (limbSide === '')
      faults.push({
        line: header.line,
        column: columnName(index, heading),
        reason: 'Left or right? Say so for the whole table, or in the heading.',
      });
    else columns.push({ index, heading, day: day.day, side: limbSide });
  }
  return { columns, faults };
}

type Place = { readonly row: TableRow; readonly label: PlaceLabel };

function rowsOfVisit({ index, heading, day, side }: VisitColumn, places: readonly Place[], mapping: Mapping) {
  const filled = places.filter(({ row }) => (row.cells[index] ?? '') !== '');
  const of = (name: string) => filled.find(({ label }) => label.kind === 'body' && label.of === name)?.row.cells[index] ?? '';
  const name = columnName(index, heading);
  const head: Partial<Record<LadderColumn, string>> = {
    patient: mapping.reference,
    born: mapping.born,
    sex: mapping.sex,
    day,
    time: of('time'),
    posture: of('posture'),
    measurer: of('measurer'),
    height: withUnitOf(of('height'), mapping.heightUnit),
    weight: withUnitOf(of('weight'), mapping.weightUnit),
    limb: mapping.limb,
    side,
    affected: isAffectedSide(side, mapping),
    zero: mapping.zero,
    unit: mapping.unit,
  };
  const names = { girth: name, distance: name, height: `height, ${name}`, weight: `weight, ${name}`, day: name, time: `time, ${name}` };
  return filled.flatMap(({ row, label }) => {
    const cell = row.cells[index] ?? '';
    if (label.kind === 'distance') {
      const cells = { ...head, distance: label.distance, girth: cell, landmark: label.landmark ?? '', note: label.words };
      return [spreadsheetRow(row.line, cells, names)];
    }
    if (label.kind === 'landmark-at') return [spreadsheetRow(row.line, { ...head, distance: cell, landmark: label.landmark }, names)];
    return [];
  });
}
