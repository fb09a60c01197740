import type { Side } from '../ladder/limb';
import { slipText } from '../ladder/slip';
import type { LengthUnit } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';
import { rowAt, withExchanged, withMoved, withSidesExchanged } from '../visit-form/change-set-up';
import { sheetRows } from '../visit-form/entry-rows';
import { cellKey, type LimbSheet, withCell } from '../visit-form/visit-form';
import { changeInWords, counted } from './act-in-words';
import type { OpenQuestion } from './typed-view';

/** What taking the offered answer does to a sheet, in words as they stand after "Undo:", and the row to go on from. */
export type SheetFix = { readonly change: (sheet: LimbSheet) => LimbSheet; readonly words: string; readonly goTo?: string };

/** The change that sets right what a question guesses. */
export function fixFor({ side, row, doubt }: OpenQuestion, sheet: LimbSheet): SheetFix | undefined {
  if (doubt.kind === 'sides-swapped') return { change: withSidesExchanged, words: 'exchange left and right' };
  if (doubt.kind === 'shifted-rungs') {
    const by = doubt.moveBy ?? 1;
    const words = `move ${counted(filledFrom(sheet, side, row), 'rung')} one ${by === 1 ? 'on' : 'back'}`;
    return { change: (one) => withMoved(one, side, row, by), words, ...(by === 1 ? { goTo: row } : {}) };
  }
  if (doubt.kind === 'swapped-neighbours') return exchange(sheet, side, row);
  if (doubt.kind === 'taped-twice')
    return { change: (one) => firstForSecond(one, side, row), words: `count the second measuring${at(doubt.distanceMm, sheet.unit)}` };
  if (doubt.wouldFitMm === undefined) return undefined;
  const text = slipText(doubt.wouldFitMm, sheet.unit);
  const key = cellKey(side, row);
  const words = changeInWords(sheet.cells[key]?.text ?? '', text, doubt.distanceMm, sheet.unit);
  return { change: (one) => withCell(one, key, { ...one.cells[key], kept: undefined, text }), words };
}

/** How many figures of a side stand from a row on. */
function filledFrom(sheet: LimbSheet, side: Side, row: string): number {
  const keys = sheetRows(sheet).map(({ key }) => key);
  return keys.slice(keys.indexOf(row)).filter((key) => sheet.cells[cellKey(side, key)]?.text).length;
}

function at(distanceMm: number | null, unit: LengthUnit): string {
  return distanceMm === null || Number.isNaN(distanceMm) ? '' : ` at ${showLengthWithUnit(distanceMm, unit, 16)}`;
}

function exchange(sheet: LimbSheet, side: Side, row: string): SheetFix | undefined {
  const rows = sheetRows(sheet);
  const filled = rows.filter((one) => sheet.cells[cellKey(side, one.key)]?.text);
  const before = filled[filled.findIndex((one) => one.key === row) - 1];
  if (!before) return undefined;
  const words = `exchange two figures${at(Number(before.at[side]?.nm) / 1e6, sheet.unit)}`;
  return { change: (one) => withExchanged(one, side, before.key, row), words };
}

function firstForSecond(sheet: LimbSheet, side: Side, row: string): LimbSheet {
  const key = cellKey(side, row);
  const cell = sheet.cells[key];
  return cell?.again ? withCell(sheet, key, { ...cell, text: cell.again, again: cell.text }) : sheet;
}

/** The row at which a kept question is filed: its own, or the first filled one for a question about the whole ladder. */
export function keptAt(question: OpenQuestion, sheet: LimbSheet): string {
  const rows = sheetRows(sheet);
  if (!question.whole && question.doubt.distanceMm !== null)
    return rowAt(rows, question.side, question.doubt.distanceMm)?.key ?? question.row;
  return rows.find((row) => sheet.cells[cellKey(question.side, row.key)]?.text)?.key ?? question.row;
}
