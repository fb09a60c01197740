import type { CsvFault, CsvRow } from '../csv-table';
import { carriedDown } from './carried-down';
import type { Mapping, Role } from './mapping';
import { type PlaceLabel, placeLabel, sideIn } from './place-label';
import { columnName, isAffectedSide, type LadderColumn, spreadsheetRow, type TranslatedRows } from './spreadsheet-row';
import type { TableRow, TextTable } from './text-table';
import { visitCells } from './visit-cells';
import { limbOf } from './words-of-cells';

/** One column that is a place: its side where the heading says one, and what the place is. */
type PlaceColumn = { readonly index: number; readonly name: string; readonly side: string | undefined; readonly label: PlaceLabel };

/**
 * A table with a row a visit and the places across, as rows of the ladders file.
 *
 * Headings are places (`0`, `8`, `34 knee`, `knee at`), each with its side where both limbs stand in one row (`R 8`); reference, birth, sex,
 * day, side and so on stand in columns of their own, or hold for the whole table.
 * Example: columns `day, side, 0, 8, 16` and a row `2026-03-02, right, 21.5, 24, 30` are one ladder of three rungs.
 */
export function visitsDownRows({ rows }: TextTable, mapping: Mapping): TranslatedRows {
  const [header, ...body] = rows;
  if (!header) return { rows: [], faults: [] };
  const places = header.cells.flatMap((heading, index) => (mapping.roles[index] === 'place' ? [placeColumn(index, heading, mapping)] : []));
  const faults = places.flatMap(({ label, name }): CsvFault[] =>
    label.kind === 'unknown' ? [{ line: header.line, column: name, reason: `${label.reason} Or leave the column out.` }] : [],
  );
  return { rows: carriedDown(body, mapping).flatMap((row) => rowsOfVisit(row, header, places, mapping)), faults };
}

function placeColumn(index: number, heading: string, mapping: Mapping): PlaceColumn {
  const { side, rest } = sideIn(heading);
  return {
    index,
    name: columnName(index, heading),
    side,
    label: placeLabel(rest, mapping.limb === 'arm' ? 'arm' : 'leg', mapping.unit, mapping.zero),
  };
}

function rowsOfVisit(row: TableRow, header: TableRow, places: readonly PlaceColumn[], mapping: Mapping): readonly CsvRow[] {
  const cellOf = (role: Role) => row.cells[mapping.roles.indexOf(role)] ?? '';
  const nameOf = (role: Role) => columnName(mapping.roles.indexOf(role), header.cells[mapping.roles.indexOf(role)] ?? '');
  const visit = visitCells({ line: row.line, cellOf, nameOf }, mapping);
  if ('spoilt' in visit) return [visit.spoilt];
  const sideOfRow = sideIn(cellOf('side')).side ?? mapping.side;
  const head: Partial<Record<LadderColumn, string>> = {
    ...visit,
    limb: limbOf(cellOf('limb')) || mapping.limb,
    zero: mapping.zero,
    unit: mapping.unit,
  };
  const known = {
    patient: nameOf('reference'),
    sex: nameOf('sex'),
    height: nameOf('height'),
    weight: nameOf('weight'),
    time: nameOf('time'),
  };
  return places.flatMap(({ index, name, side, label }) => {
    const cell = row.cells[index] ?? '';
    const limbSide = side ?? sideOfRow;
    if (cell === '' || label.kind === 'unknown' || label.kind === 'body') return [];
    const of = { ...head, side: limbSide, affected: isAffectedSide(limbSide, mapping) };
    const names = { ...known, girth: name, distance: name, side: nameOf('side'), day: nameOf('day') };
    if (label.kind === 'landmark-at') return [spreadsheetRow(row.line, { ...of, distance: cell, landmark: label.landmark }, names)];
    const cells = { ...of, distance: label.distance, girth: cell, landmark: label.landmark ?? '', note: label.words };
    return [spreadsheetRow(row.line, cells, names)];
  });
}
