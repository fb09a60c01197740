import type { KeptDoubt } from '../ladder/ladder';
import type { Side } from '../ladder/limb';
import { type GirthCell, type LimbSheet, type VisitForm, withCell } from '../visit-form/visit-form';
import { type MeasureAct, measureAct, withMeasureAct } from './measure-act';
import { type NamedAct, namedAct, withAct } from './named-act';

/** An act that can be taken back: on a ladder, or on named measures. */
type Act = NamedAct | MeasureAct;

/** Where on the sheet a person is: which limb kind, side and row, and whether in the column of the second measuring. */
export type CellPlace = { readonly group: number; readonly side: Side; readonly row: string; readonly again: boolean };

/** The cell being typed in, and what stood in it before. */
type Editing = { readonly place: CellPlace; readonly before: GirthCell };

/** The sheet as a whole: what is typed, what is being typed, and the acts that can be taken back or done again, the newest last. */
export type SheetState = {
  readonly form: VisitForm;
  readonly editing: Editing | null;
  readonly done: readonly Act[];
  readonly undone: readonly Act[];
  /** What was done, taken back or done again last, for the line that is read aloud. */
  readonly said: string | null;
  /** The place typed last, so that its question is shown first. */
  readonly newest: CellPlace | null;
};

export type SheetStep =
  | { readonly kind: 'focus'; readonly place: CellPlace }
  | { readonly kind: 'blur' }
  | { readonly kind: 'type'; readonly place: CellPlace; readonly text: string }
  | { readonly kind: 'restore' }
  | { readonly kind: 'keep'; readonly place: CellPlace; readonly kept: KeptDoubt; readonly words: string }
  | { readonly kind: 'field'; readonly change: Partial<VisitForm> }
  | { readonly kind: 'sheet'; readonly group: number; readonly change: (sheet: LimbSheet) => LimbSheet; readonly words?: string }
  | { readonly kind: 'measures'; readonly change: Partial<VisitForm>; readonly words: string }
  | { readonly kind: 'replace'; readonly form: VisitForm }
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' };

const EMPTY: GirthCell = { text: '' };

/** So many acts can be taken back. */
const MOST_ACTS = 50;

/** A sheet that is opened: nothing done yet. */
export function opened(form: VisitForm): SheetState {
  return { form, editing: null, done: [], undone: [], said: null, newest: null };
}

/** The cell of a sheet at a place; an empty one where nothing is typed. */
export function cellAt(form: VisitForm, place: CellPlace): GirthCell {
  return form.sheets[place.group]?.cells[`${place.side}/${place.row}`] ?? EMPTY;
}

/** Whether the cell being typed in differs from what stood there. */
export function isHalfTyped({ form, editing }: SheetState): boolean {
  if (!editing) return false;
  const now = cellAt(form, editing.place);
  return now.text !== editing.before.text || (now.again ?? '') !== (editing.before.again ?? '');
}

/** The form without what is still being typed: what questions are asked about. */
export function committedForm(state: SheetState): VisitForm {
  const { editing, form } = state;
  return editing && isHalfTyped(state) ? placed(form, editing.place, editing.before) : form;
}

/** The newest act that can still be taken back, whatever was typed since; undefined when there is none. */
export function undoable({ form, done }: SheetState): Act | undefined {
  return done.findLast((act) => isPossible(form, act, 'back'));
}

/** The act taken back last, while it can be done again. */
export function redoable({ form, undone }: SheetState): Act | undefined {
  const last = undone.at(-1);
  return last && isPossible(form, last, 'again') ? last : undefined;
}

/** One step of a person's work on the sheet. */
export function step(state: SheetState, action: SheetStep): SheetState {
  switch (action.kind) {
    case 'focus':
      return { ...committed(state), editing: { place: action.place, before: cellAt(state.form, action.place) } };
    case 'blur':
      return committed(state);
    case 'type': {
      const cell = cellAt(state.form, action.place);
      const { kept: _asked, ...bare } = cell;
      const next = action.place.again ? { ...cell, again: action.text } : { ...bare, text: action.text };
      const editing = state.editing ?? { place: action.place, before: cell };
      return { ...state, form: placed(state.form, action.place, next), editing, said: null };
    }
    case 'restore':
      return state.editing ? { ...state, form: placed(state.form, state.editing.place, state.editing.before) } : state;
    case 'keep': {
      const cell = cellAt(state.form, action.place);
      return acted(
        state,
        placed(state.form, action.place, { ...cell, kept: [...(cell.kept ?? []), action.kept] }),
        action.place.group,
        action.words,
      );
    }
    case 'field':
      return { ...state, form: { ...state.form, ...action.change } };
    case 'sheet': {
      const sheets = state.form.sheets.map((sheet, index) => (index === action.group ? action.change(sheet) : sheet));
      const next = { ...committed(state), editing: null };
      return action.words
        ? acted(next, { ...state.form, sheets }, action.group, action.words)
        : { ...next, form: { ...state.form, sheets } };
    }
    case 'measures': {
      const form = { ...state.form, ...action.change };
      return noted({ ...committed(state), editing: null }, form, measureAct(action.words, state.form, form));
    }
    case 'replace':
      return opened(action.form);
    case 'undo':
      return taken(state, undoable(state), 'back');
    case 'redo':
      return taken(state, redoable(state), 'again');
  }
}

function acted(state: SheetState, form: VisitForm, group: number, words: string): SheetState {
  const [before, after] = [state.form.sheets[group], form.sheets[group]];
  return noted(state, form, before && after && namedAct(words, group, before, after));
}

function noted(state: SheetState, form: VisitForm, act: Act | undefined): SheetState {
  if (!act) return { ...state, form };
  return { ...state, form, done: [...state.done, act].slice(-MOST_ACTS), undone: [], said: `Done: ${act.words}.` };
}

/** The act goes from one list to the other. Acts that were newer and no longer apply are let go. */
function taken(state: SheetState, act: Act | undefined, way: 'back' | 'again'): SheetState {
  const form = act && formWithAct(state.form, act, way);
  if (!act || !form) return state;
  const done = way === 'back' ? state.done.slice(0, state.done.indexOf(act)) : [...state.done, act];
  const undone = way === 'back' ? [...state.undone, act] : state.undone.slice(0, -1);
  return { ...committed(state), form, editing: null, done, undone, said: `${way === 'back' ? 'Taken back' : 'Done again'}: ${act.words}.` };
}

function isPossible(form: VisitForm, act: Act, way: 'back' | 'again'): boolean {
  return formWithAct(form, act, way) !== undefined;
}

/** The form with an act taken back or done again; undefined when it no longer applies. */
function formWithAct(form: VisitForm, act: Act, way: 'back' | 'again'): VisitForm | undefined {
  if ('measures' in act) return withMeasureAct(form, act, way);
  const sheet = form.sheets[act.group];
  const next = sheet && withAct(sheet, act, way);
  return next && { ...form, sheets: form.sheets.map((one, index) => (index === act.group ? next : one)) };
}

function committed(state: SheetState): SheetState {
  return { ...state, editing: null, newest: isHalfTyped(state) && state.editing ? state.editing.place : state.newest };
}

function placed(form: VisitForm, place: CellPlace, cell: GirthCell): VisitForm {
  const sheets = form.sheets.map((sheet, index) => (index === place.group ? withCell(sheet, `${place.side}/${place.row}`, cell) : sheet));
  return { ...form, sheets };
}
