import type { Side } from '../ladder/limb';
import { type LengthUnit, NANOMETRES_IN } from '../units/length';
import { readLength } from '../units/read-length';
import { readPlace, type SheetRow, sheetRows } from './entry-rows';
import { FIRST_INTERVAL } from './first-sheet';
import { cellKey, type GirthCell, type LimbSheet, type VisitForm } from './visit-form';

/**
 * The sheet with another interval or unit; figures stay on the rung they were typed at, by its number, and extra places by their text.
 *
 * An empty interval is a ladder without a grid. Refuses by doing nothing: one that cannot be read leaves the sheet as it was.
 * Example: every 1½ in changed to every 2 in: the third girth, at 4½, now stands at 6.
 */
export function withGrid(
  sheet: LimbSheet,
  grid: { readonly interval: string; readonly unit: LengthUnit; readonly fromZero: boolean },
): LimbSheet {
  const next: LimbSheet = { ...sheet, ...grid };
  if (grid.interval.trim() === '') return next;
  if (readLength(grid.interval, grid.unit, true).kind !== 'read') return sheet;
  const step = stepOf(next);
  const rows = sheetRows(sheet);
  const keys = new Map<string, string>();
  for (const row of rows.filter((one) => one.kind === 'extra')) {
    const extra = sheet.extras.find((one) => readPlace(one.place, sheet)?.nm === Number(row.key));
    const place = extra && readPlace(extra.place, next);
    if (place) keys.set(row.key, String(place.nm));
  }
  const first = next.fromZero ? 0 : 1;
  const onGrid = rows.filter((row) => row.kind === 'grid');
  for (const [index, row] of onGrid.entries()) keys.set(row.key, String((index + first) * step));
  return { ...next, cells: rekeyed(sheet, keys) };
}

/** The interval a sheet starts from when its unit is changed. */
export function intervalIn(unit: LengthUnit): string {
  return FIRST_INTERVAL[unit];
}

/**
 * The units in which height and weight are read beside a tape in another unit: a box that is still empty goes with the tape.
 *
 * Pounds become kilograms beside a tape in centimetres; beside one in inches weights stay, as many weigh in kilograms there.
 * Example: nothing typed, a tape in cm: cm and kg.
 */
export function bodyUnitsBeside(
  form: Pick<VisitForm, 'height' | 'weight'>,
  unit: LengthUnit,
): Partial<Pick<VisitForm, 'heightUnit' | 'massUnit'>> {
  return {
    ...(form.height.trim() === '' ? { heightUnit: unit } : {}),
    ...(form.weight.trim() === '' && unit === 'cm' ? { massUnit: 'kg' } : {}),
  };
}

/**
 * The sheet with the figures of one side from some row on moved to the next row (1) or the one before (−1).
 *
 * Moving on leaves the first row empty and makes a row at the end when the last one holds a figure; moving back overwrites the row
 * before. Example: 9 in was left out: its figure and all later ones move on, and 9 in waits to be typed.
 */
export function withMoved(sheet: LimbSheet, side: Side, fromKey: string, by: 1 | -1): LimbSheet {
  const keys = sheetRows(sheet).map((row) => row.key);
  const from = keys.indexOf(fromKey);
  if (from < 0) return sheet;
  const lastFilled = sheet.cells[cellKey(side, keys.at(-1) ?? '')] !== undefined;
  const grown = by === 1 && lastFilled ? { ...sheet, more: sheet.more + 1 } : sheet;
  const places = sheetRows(grown).map((row) => row.key);
  const cells: Record<string, GirthCell> = { ...sheet.cells };
  for (const key of keys.slice(by === 1 ? from : from - 1)) delete cells[cellKey(side, key)];
  keys.slice(from).forEach((key, index) => {
    const cell = sheet.cells[cellKey(side, key)];
    const target = places[from + index + by];
    if (cell && target) cells[cellKey(side, target)] = withoutKept(cell);
  });
  return { ...grown, cells };
}

/** The sheet with two cells of one side exchanged. */
export function withExchanged(sheet: LimbSheet, side: Side, oneKey: string, otherKey: string): LimbSheet {
  const [one, other] = [cellKey(side, oneKey), cellKey(side, otherKey)];
  const { [one]: first, [other]: second, ...rest } = sheet.cells;
  return {
    ...sheet,
    cells: { ...rest, ...(second ? { [one]: withoutKept(second) } : {}), ...(first ? { [other]: withoutKept(first) } : {}) },
  };
}

/** The sheet with the figures of left and right exchanged. */
export function withSidesExchanged(sheet: LimbSheet): LimbSheet {
  const across = (key: string) => (key.startsWith('right/') ? `left/${key.slice(6)}` : `right/${key.slice(5)}`);
  return { ...sheet, cells: Object.fromEntries(Object.entries(sheet.cells).map(([key, cell]) => [across(key), withoutKept(cell)])) };
}

function rekeyed(sheet: LimbSheet, keys: ReadonlyMap<string, string>): Record<string, GirthCell> {
  return Object.fromEntries(
    Object.entries(sheet.cells).map(([key, cell]) => {
      const [side, row] = [key.slice(0, key.indexOf('/')), key.slice(key.indexOf('/') + 1)];
      return [`${side}/${keys.get(row) ?? row}`, cell];
    }),
  );
}

function stepOf(sheet: LimbSheet): number {
  const reading = readLength(sheet.interval, sheet.unit, true);
  return reading.kind === 'read' ? reading.value.nm : Number(NANOMETRES_IN[sheet.unit]);
}

/** A figure that moved is another reading of another place: what was kept about it no longer holds. */
function withoutKept({ kept: _kept, ...cell }: GirthCell): GirthCell {
  return cell;
}

/** Row of a place, mm from zero. */
export function rowAt(rows: readonly SheetRow[], side: Side, distanceMm: number): SheetRow | undefined {
  return rows.find((row) => row.at[side] && row.at[side].nm / 1e6 === distanceMm);
}
