import type { Side } from '@/lib/ladder/limb';
import { slipText } from '@/lib/ladder/slip';
import { rowAt, withExchanged, withMoved, withSidesExchanged } from '@/lib/record/change-set-up';
import { sheetRows } from '@/lib/record/sheet-rows';
import { cellKey, type LimbSheet, withCell } from '@/lib/record/visit-form';
import type { OpenQuestion } from './sheet-view';

/** What taking the offered answer does to a sheet, in words for the undo line, and the row to go on from; undefined when it changes no figure. */
export type SheetFix = { readonly change: (sheet: LimbSheet) => LimbSheet; readonly words: string; readonly goTo?: string };

/** The change that sets right what a question guesses. */
export function fixFor({ side, row, doubt }: OpenQuestion, sheet: LimbSheet): SheetFix | undefined {
  if (doubt.kind === 'sides-swapped') return { change: withSidesExchanged, words: 'Left and right exchanged.' };
  if (doubt.kind === 'shifted-rungs') {
    const by = doubt.moveBy ?? 1;
    const words = by === 1 ? 'Later figures moved one rung on.' : 'Later figures moved one rung back.';
    return { change: (one) => withMoved(one, side, row, by), words, ...(by === 1 ? { goTo: row } : {}) };
  }
  if (doubt.kind === 'swapped-neighbours') return exchange(sheet, side, row);
  if (doubt.kind === 'taped-twice') return { change: (one) => firstForSecond(one, side, row), words: 'The second taping counts.' };
  if (doubt.wouldFitMm === undefined) return undefined;
  const text = slipText(doubt.wouldFitMm, sheet.unit);
  const key = cellKey(side, row);
  return { change: (one) => withCell(one, key, { ...one.cells[key], kept: undefined, text }), words: `Changed to ${text}.` };
}

function exchange(sheet: LimbSheet, side: Side, row: string): SheetFix | undefined {
  const rows = sheetRows(sheet);
  const filled = rows.filter((one) => sheet.cells[cellKey(side, one.key)]?.text);
  const before = filled[filled.findIndex((one) => one.key === row) - 1];
  return before && { change: (one) => withExchanged(one, side, before.key, row), words: 'The two figures exchanged.' };
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
