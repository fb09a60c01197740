import { describe, expect, it } from 'vitest';
import { fixFor } from '@/lib/entry/answer-question';
import { type CellPlace, cellAt, opened, redoable, type SheetState, type SheetStep, step, undoable } from '@/lib/entry/entry-state';
import type { Doubt } from '@/lib/ladder/doubt';
import { withGrid } from '@/lib/visit-form/change-set-up';
import { firstSheet } from '@/lib/visit-form/first-sheet';
import { cutPasted } from '@/lib/visit-form/pasted-columns';
import { planPaste, withPasted } from '@/lib/visit-form/place-pasted';
import type { VisitForm } from '@/lib/visit-form/visit-form';

const ROW = (index: number) => String(38_100_000 * (index + 1));
const at = (index: number): CellPlace => ({ group: 0, side: 'right', row: ROW(index), again: false });

function form(girths: readonly string[]): VisitForm {
  const cells = Object.fromEntries(girths.map((text, index) => [`right/${ROW(index)}`, { text }]));
  const bare = { posture: '', measurer: '', height: '', weight: '', note: '', readings: [] };
  const sheet = { ...firstSheet('leg', 'in', ['right']), cells };
  return { ...bare, day: '2026-11-25', time: '', heightUnit: 'in', massUnit: 'lb', sheets: [sheet] };
}

const run = (start: SheetState, ...steps: readonly SheetStep[]) => steps.reduce(step, start);
const typed = (index: number, text: string): SheetStep[] => [
  { kind: 'focus', place: at(index) },
  { kind: 'type', place: at(index), text },
  { kind: 'blur' },
];
const figures = (state: SheetState, count: number) => Array.from({ length: count }, (_, index) => cellAt(state.form, at(index)).text);

/** Takes the answer that a question offers, as the sheet does. */
function answered(state: SheetState, doubt: Omit<Doubt, 'message'>, row: string): SheetState {
  const sheet = state.form.sheets[0];
  const fix = sheet && fixFor({ side: 'right', row, whole: false, doubt: { ...doubt, message: '' } }, sheet);
  if (!fix) throw new Error('no answer');
  return step(state, { kind: 'sheet', group: 0, change: fix.change, words: fix.words });
}

const SLIP = ['8 1/8', '8 3/8', '21 1/8'];
const FIT = { kind: 'swapped-digits', distanceMm: 114.3, wouldFitMm: 12.125 * 25.4 } as const;

describe('undo on the sheet', () => {
  it('takes back the answer and leaves the five rungs typed after it', () => {
    const slip = answered(opened(form(SLIP)), FIT, ROW(2));
    expect(undoable(slip)?.words).toMatch(/^change 21⅛ at 4½\sin to 12⅛$/);
    const more = ['12', '13', '14', '15', '16'];
    const on = run(slip, ...more.flatMap((text, index) => typed(3 + index, text)));
    const back = step(on, { kind: 'undo' });
    expect(figures(back, 8)).toEqual([...SLIP, ...more]);
    expect(undoable(back)).toBeUndefined();
    expect(figures(step(back, { kind: 'redo' }), 8)).toEqual(['8 1/8', '8 3/8', '12 1/8', ...more]);
  });

  it('names an act by what it did: five rungs moved one on', () => {
    const moved = answered(
      opened(form(['8', '9', '10', '11', '12', '13'])),
      { kind: 'shifted-rungs', distanceMm: 76.2, moveBy: 1 },
      ROW(1),
    );
    expect(undoable(moved)?.words).toBe('move five rungs one on');
    expect(figures(moved, 7)).toEqual(['8', '', '9', '10', '11', '12', '13']);
    expect(figures(step(moved, { kind: 'undo' }), 7)).toEqual(['8', '9', '10', '11', '12', '13', '']);
  });

  it('is gone once a box that the act changed is typed anew, and never overwrites it', () => {
    const moved = answered(opened(form(['8', '9', '10'])), { kind: 'shifted-rungs', distanceMm: 76.2, moveBy: 1 }, ROW(1));
    const filled = run(moved, ...typed(1, '8 1/2'));
    expect(undoable(filled)).toBeUndefined();
    expect(step(filled, { kind: 'undo' })).toBe(filled);
  });

  it('goes back several acts and forth again, newest first', () => {
    const kept = { kind: 'swapped-digits', by: 'RA', at: '2026-11-25T10:00:00.000Z' };
    const start = opened(form(SLIP));
    const one = step(start, { kind: 'keep', place: at(2), kept, words: 'keep 21⅛ at 4½ in' });
    const sheet = one.form.sheets[0];
    if (!sheet) throw new Error('no sheet');
    const plan = planPaste(cutPasted('9\n9 1/8'), ['right'], sheet, { row: ROW(0), again: false });
    const two = step(one, { kind: 'sheet', group: 0, change: (given) => withPasted(given, plan), words: 'paste two figures' });
    expect(figures(two, 3)).toEqual(['9', '9 1/8', '21 1/8']);
    const back = run(two, { kind: 'undo' }, { kind: 'undo' });
    expect(back.form).toEqual(start.form);
    expect(redoable(back)?.words).toBe('keep 21⅛ at 4½ in');
    expect(run(back, { kind: 'redo' }, { kind: 'redo' }).form).toEqual(two.form);
  });

  it('another ruler is taken back only while no figure was typed on it', () => {
    const changed = step(opened(form(['8', '9'])), {
      kind: 'sheet',
      group: 0,
      change: (one) => withGrid(one, { interval: '2', unit: 'in', fromZero: false }),
      words: 'change the interval',
    });
    expect(undoable(changed)?.words).toBe('change the interval');
    expect(step(changed, { kind: 'undo' }).form).toEqual(form(['8', '9']));
    const place = { group: 0, side: 'right', row: '152400000', again: false } as const;
    expect(undoable(run(changed, { kind: 'focus', place }, { kind: 'type', place, text: '10' }))).toBeUndefined();
  });
});
