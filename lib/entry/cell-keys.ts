import type { Side } from '../ladder/limb';
import type { SheetRow } from '../visit-form/entry-rows';
import type { LimbSheet } from '../visit-form/visit-form';
import type { CellPlace } from './entry-state';

/** What a key pressed in a cell asks for. */
export type CellWish =
  | 'next'
  | 'down'
  | 'up'
  | 'across'
  | 'escape'
  | 'fits'
  | 'keep'
  | 'place'
  | 'single'
  | 'back'
  | 'limb'
  | 'question'
  | 'gap'
  | undefined;

/**
 * What a key in a cell means. Letters are wishes only where no unit can be meant: never right after another letter.
 *
 * S and K answer the open question and Q goes to the next one, G leaves a gap for a rung that was left out, P adds a place, R a single reading, B reads back, N goes on to the next limb, or to finishing. Left
 * and Right cross to the other limb only from the edge of the text.
 */
export function cellWish(
  key: string,
  box: { readonly value: string; readonly selectionStart: number | null; readonly selectionEnd: number | null },
  hasQuestion: boolean,
): CellWish {
  if (key === 'Enter') return 'next';
  if (key === 'ArrowDown') return 'down';
  if (key === 'ArrowUp') return 'up';
  if (key === 'Escape') return 'escape';
  const start = box.selectionStart ?? 0;
  const end = box.selectionEnd ?? 0;
  if (key === 'ArrowLeft') return start === 0 && (end === 0 || end === box.value.length) ? 'across' : undefined;
  if (key === 'ArrowRight') return end === box.value.length && (start === end || start === 0) ? 'across' : undefined;
  if (/[a-z]$/i.test(box.value.slice(0, start))) return undefined;
  const letter = key.toLowerCase();
  if (hasQuestion && letter === 's') return 'fits';
  if (hasQuestion && letter === 'k') return 'keep';
  if (hasQuestion && letter === 'q') return 'question';
  if (letter === 'g') return 'gap';
  if (letter === 'p') return 'place';
  if (letter === 'r') return 'single';
  if (letter === 'b') return 'back';
  if (letter === 'n') return 'limb';
  return undefined;
}

/** The rows of a sheet, which is all that moving about needs. */
export type RowsOfSheet = { readonly sheet: LimbSheet; readonly rows: readonly SheetRow[] };

/** The cell one row on (1) or back (−1) on the same side; none beyond the ends of a column: nobody leaves a limb by Enter alone. */
export function nextPlace(view: RowsOfSheet, place: CellPlace, by: 1 | -1): CellPlace | undefined {
  const keys = view.rows.filter((row) => row.at[place.side] || row.key === 'end').map((row) => row.key);
  const key = keys[keys.indexOf(place.row) + by];
  return key === undefined ? undefined : { ...place, row: key };
}

/** The first empty row of the next limb of a sheet; undefined on its last one. */
export function nextLimb(view: RowsOfSheet, place: CellPlace): CellPlace | undefined {
  const side = view.sheet.sides[view.sheet.sides.indexOf(place.side) + 1];
  return side && { ...place, side, row: firstEmpty(view, side, place.again) };
}

/** The same row on the other limb. */
export function acrossPlace(view: RowsOfSheet, place: CellPlace): CellPlace | undefined {
  const side = view.sheet.sides.find((one) => one !== place.side);
  return side && { ...place, side };
}

/** The first row of a side without a figure; its first row when all have one. */
export function firstEmpty(view: RowsOfSheet, side: Side, again: boolean): string {
  const empty = view.rows.find((row) => {
    const cell = view.sheet.cells[`${side}/${row.key}`];
    return !(again ? cell?.again : cell?.text);
  });
  return empty?.key ?? view.rows[0]?.key ?? '';
}
