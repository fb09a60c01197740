import type { Side } from '../ladder/limb';
import { readLength } from '../units/read-length';
import { readPlace, sheetRows } from './entry-rows';
import type { PastedBlock } from './pasted-columns';
import { cellKey, type LimbSheet, withCell } from './visit-form';

/** What a pasted column holds. */
export type ColumnHolds = 'place' | Side | 'nothing';

/** One figure of a pasted block: the row of the sheet it goes to, as typed, what stands there now, and why it cannot be read. */
export type PastedFigure = {
  readonly line: number;
  readonly side: Side;
  readonly row: string | null;
  readonly text: string;
  readonly stands: string;
  readonly refused: string | null;
};

/** Where a block is put: from which row on, and whether into the column of the second measuring. */
export type PasteAt = { readonly row: string; readonly again: boolean };

/** A pasted block laid on a sheet: every figure, into which column, and what stops it as a whole. */
export type PastePlan = { readonly figures: readonly PastedFigure[]; readonly again: boolean; readonly refused: string | null };

/**
 * What each column most likely holds: one column the side being taped; of two, places and that side where the first column holds places
 * of the sheet, else right and left; of three, places, right, left.
 */
export function guessColumns(block: PastedBlock, sheet: LimbSheet, side: Side): ColumnHolds[] {
  const width = Math.max(0, ...block.rows.map((row) => row.length));
  const keys = new Set(sheetRows(sheet).map((row) => row.key));
  const places = block.rows.filter((row) => {
    const at = readPlace(row[0] ?? '', sheet);
    return at !== undefined && keys.has(String(at.nm));
  }).length;
  const first = width > 1 && places >= 0.6 * block.rows.length;
  const sides = sheet.sides.length > 1 ? sheet.sides : [side];
  const rest: ColumnHolds[] = width - (first ? 1 : 0) === 1 ? [side] : [...sides];
  return Array.from({ length: width }, (_, column) => (first && column === 0 ? 'place' : (rest[column - (first ? 1 : 0)] ?? 'nothing')));
}

/**
 * Each pasted figure with the row it goes to. Without a column of places the figures fill rows in order from a row on.
 *
 * Refuses as a whole: more figures than rows, a place that the sheet does not have, two columns for one side, a second measuring where there is no first. Nothing
 * lands unless every cell can be read. Example: 14 lines on a sheet with 12 rows from here: "14 lines for 12 rungs."
 */
export function planPaste(block: PastedBlock, columns: readonly ColumnHolds[], sheet: LimbSheet, from: PasteAt): PastePlan {
  const keys = sheetRows(sheet).map((row) => row.key);
  const start = Math.max(keys.indexOf(from.row), 0);
  const placeColumn = columns.indexOf('place');
  const figures: PastedFigure[] = [];
  for (const [index, cells] of block.rows.entries()) {
    const line = index + 1 + (block.header ? 1 : 0);
    const row = placeColumn >= 0 ? rowOfPlace(cells[placeColumn] ?? '', sheet, keys) : (keys[start + index] ?? null);
    for (const [column, holds] of columns.entries()) {
      const text = cells[column] ?? '';
      if (holds === 'place' || holds === 'nothing' || text === '') continue;
      const reading = readLength(text, sheet.unit, true);
      const unplaced = row === null && placeColumn >= 0 ? `The place “${cells[placeColumn] ?? ''}” is not on this sheet.` : null;
      const there = row === null ? undefined : sheet.cells[cellKey(holds, row)];
      const stands = (from.again ? there?.again : there?.text)?.trim() ?? '';
      const alone = from.again && row !== null && !there?.text.trim() ? 'Nothing stands there to be measured again.' : null;
      figures.push({ line, side: holds, row, text, stands, refused: reading.kind === 'read' ? (unplaced ?? alone) : reading.reason });
    }
  }
  return {
    figures,
    again: from.again,
    refused: refusalOf(figures, columns, block.rows.length, placeColumn >= 0 ? null : keys.length - start),
  };
}

/** The sheet with every figure of a plan in its cell; a figure that stood there is replaced, with what was kept about it, and no other. */
export function withPasted(sheet: LimbSheet, plan: PastePlan): LimbSheet {
  return plan.figures.reduce((filled, { side, row, text }) => {
    if (row === null) return filled;
    const key = cellKey(side, row);
    const { kept: _kept, ...there } = filled.cells[key] ?? { text: '' };
    return withCell(filled, key, plan.again ? { ...there, again: text } : { ...there, text });
  }, sheet);
}

function refusalOf(figures: readonly PastedFigure[], columns: readonly ColumnHolds[], lines: number, rungs: number | null): string | null {
  if (figures.length === 0) return 'There are no figures in this text.';
  for (const side of ['right', 'left'] as const)
    if (columns.filter((one) => one === side).length > 1) return `Two columns are set to ${side}. Set one of them to another.`;
  if (rungs !== null && lines > rungs) return `${lines} lines for ${rungs} rungs. Add rungs to the sheet, or paste fewer lines.`;
  const bad = figures.find((figure) => figure.refused !== null);
  return bad ? `Line ${bad.line}, ${bad.side}: ${bad.refused} Nothing was pasted.` : null;
}

function rowOfPlace(text: string, sheet: LimbSheet, keys: readonly string[]): string | null {
  const at = readPlace(text, sheet);
  const key = at && String(at.nm);
  if (key && keys.includes(key)) return key;
  const end = sheetRows(sheet).find((row) => row.key === 'end');
  return at && end && Object.values(end.at).some((one) => one?.nm === at.nm) ? 'end' : null;
}
