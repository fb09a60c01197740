import { type LandmarkId, LIMBS, placeInWords, type Side } from '../ladder/limb';
import { landmarksAhead } from '../ladder/zero-and-direction';
import { exactText } from '../units/exact-text';
import { asNanometres, type TypedLength } from '../units/length';
import { readLength } from '../units/read-length';
import { type LimbSheet, markKey } from './visit-form';

/** A row of the sheet: where it is on the ruler of each side (undefined where that cannot be read yet), and what it is called. */
export type SheetRow = {
  readonly key: string;
  readonly kind: 'grid' | 'end' | 'extra';
  readonly at: Readonly<Record<Side, TypedLength | undefined>>;
  readonly name: string;
};

/** A grid row closer to the far landmark than this share of an interval is left out; the odd last row stands there. Common practice. */
const NEAREST_TO_END = 0.3;

/** More rows than any limb has; a wrong interval must not make thousands. */
const MOST_ROWS = 120;

/** The landmark at which a ladder ends: the far one of its limb as seen from zero. */
export function endLandmark(sheet: LimbSheet): LandmarkId {
  return LIMBS[sheet.limb].landmarks[sheet.direction === 'up' ? 2 : 0];
}

/** Landmarks that are typed on the ruler: those ahead of zero, and any other that holds a figure, so that none is dropped unseen. */
export function typedLandmarks(sheet: LimbSheet): readonly LandmarkId[] {
  const ahead = landmarksAhead(sheet.limb, sheet.zero, sheet.direction);
  const isTyped = (landmark: LandmarkId) => sheet.sides.some((side) => sheet.marks[markKey(side, landmark)]?.trim());
  return [...ahead, ...LIMBS[sheet.limb].landmarks.filter((one) => one !== sheet.zero && !ahead.includes(one) && isTyped(one))];
}

/** A mark of one side as it was read; undefined while it is empty or cannot be read. */
function markAt(sheet: LimbSheet, side: Side, mark: LandmarkId | 'floor'): TypedLength | undefined {
  const text = sheet.marks[markKey(side, mark)] ?? '';
  const reading = text.trim() === '' ? undefined : readLength(text, sheet.unit, true);
  return reading?.kind === 'read' ? reading.value : undefined;
}

/**
 * The rows of a sheet, in order along the ruler: the grid, extra places, the odd last one, and any place that holds a figure.
 *
 * With the far landmark typed the grid goes up to it; without, it has as many rows as last time. A row that holds a figure never
 * vanishes when the set-up changes. Shape: a sheet; rows rising by distance.
 * Example: every 1½ in to a gluteal fold at 23⅜: 1½, 3 … 22½, then 23⅜.
 */
export function sheetRows(sheet: LimbSheet): SheetRow[] {
  const sides = sheet.sides.length > 0 ? sheet.sides : (['right'] as const);
  const ends = sides.map((side) => markAt(sheet, side, endLandmark(sheet)));
  const rows = new Map<string, SheetRow>();
  for (const nm of gridPlaces(sheet, ends))
    add(rows, 'grid', { text: exactText(nm, sheet.unit), unit: sheet.unit, nm: asNanometres(nm) }, '');
  for (const extra of sheet.extras) {
    const reading = readPlace(extra.place, sheet);
    if (reading) add(rows, 'extra', reading, extra.name);
  }
  for (const key of Object.keys(sheet.cells)) {
    const row = key.slice(key.indexOf('/') + 1);
    if (row === 'end' || rows.has(row)) continue;
    add(rows, 'grid', { text: exactText(Number(row), sheet.unit), unit: sheet.unit, nm: asNanometres(Number(row)) }, '');
  }
  const sorted = [...rows.values()].sort((one, other) => place(one) - place(other));
  const endTyped = Object.keys(sheet.cells).some((key) => key.endsWith('/end'));
  const endKnown = ends.some((end) => end && !rows.has(String(end.nm)));
  if (endTyped || (sheet.endRow && endKnown)) sorted.push(endRow(sheet));
  return sorted;
}

/**
 * The grid place that `sheetRows` leaves out because the last girth stands so near it, at the far landmark; undefined when there is none.
 *
 * Example: every 1½ in to a gluteal fold at 21¼: no rung at 21 in.
 */
export function leftOutPlace(sheet: LimbSheet): TypedLength | undefined {
  const interval = readLength(sheet.interval, sheet.unit, true);
  const ends = sheet.sides.flatMap((side) => markAt(sheet, side, endLandmark(sheet)) ?? []);
  if (!sheet.endRow || interval.kind !== 'read' || ends.length === 0) return undefined;
  const step = interval.value.nm;
  const nm = Math.floor(Math.max(...ends.map((end) => end.nm)) / step) * step;
  const isRow = sheetRows(sheet).some((row) => row.key === String(nm) || Object.values(row.at).some((at) => at?.nm === nm));
  return nm === 0 || isRow ? undefined : { text: exactText(nm, sheet.unit), unit: sheet.unit, nm: asNanometres(nm) };
}

function gridPlaces(sheet: LimbSheet, ends: readonly (TypedLength | undefined)[]): number[] {
  const interval = readLength(sheet.interval, sheet.unit, true);
  if (interval.kind !== 'read') return [];
  const step = interval.value.nm;
  const first = sheet.fromZero ? 0 : 1;
  const known = ends.flatMap((end) => (end ? [end.nm] : []));
  const farthest = Math.max(...known);
  const upTo = sheet.endRow ? farthest - NEAREST_TO_END * step : farthest;
  const fitting = known.length > 0 ? Math.floor(upTo / step + (sheet.endRow ? 0 : 1e-9)) + 1 - first : sheet.count;
  const count = Math.min(Math.max(fitting, 0) + sheet.more, MOST_ROWS);
  return Array.from({ length: count }, (_, index) => (index + first) * step);
}

function endRow(sheet: LimbSheet): SheetRow {
  const landmark = endLandmark(sheet);
  const at = { right: markAt(sheet, 'right', landmark), left: markAt(sheet, 'left', landmark) };
  return { key: 'end', kind: 'end', at, name: placeInWords(landmark) };
}

function add(rows: Map<string, SheetRow>, kind: 'grid' | 'extra', at: TypedLength, name: string): void {
  const key = String(at.nm);
  const before = rows.get(key);
  rows.set(key, { key, kind: before?.kind ?? kind, at: { right: at, left: at }, name: name || (before?.name ?? '') });
}

/** A place on the ruler: a length, or 0 for zero itself. */
export function readPlace(text: string, sheet: LimbSheet): TypedLength | undefined {
  if (/^0+([.,]0+)?$/.test(text.trim())) return { text: text.trim(), unit: sheet.unit, nm: asNanometres(0) };
  const reading = readLength(text, sheet.unit, true);
  return reading.kind === 'read' ? reading.value : undefined;
}

function place(row: SheetRow): number {
  return row.at.right?.nm ?? row.at.left?.nm ?? Number.POSITIVE_INFINITY;
}
