import type { KeptDoubt } from '@/lib/ladder/ladder';
import type { Side } from '@/lib/ladder/limb';
import { type GirthCell, type LimbSheet, type VisitForm, withCell } from '@/lib/record/visit-form';

/** Where on the sheet a person is: which limb kind, side and row, and whether in the column of the second measuring. */
export type CellPlace = { readonly group: number; readonly side: Side; readonly row: string; readonly again: boolean };

/** The cell being typed in, and what stood in it before. */
type Editing = { readonly place: CellPlace; readonly before: GirthCell };

/** The sheet as a whole: what is typed, what is being typed, and what can be taken back. */
export type SheetState = {
  readonly form: VisitForm;
  readonly editing: Editing | null;
  readonly undo: { readonly form: VisitForm; readonly words: string } | null;
  /** The place typed last, so that its question is shown first. */
  readonly newest: CellPlace | null;
};

export type SheetStep =
  | { readonly do: 'focus'; readonly place: CellPlace }
  | { readonly do: 'blur' }
  | { readonly do: 'type'; readonly place: CellPlace; readonly text: string }
  | { readonly do: 'restore' }
  | { readonly do: 'keep'; readonly place: CellPlace; readonly kept: KeptDoubt }
  | { readonly do: 'field'; readonly change: Partial<VisitForm> }
  | { readonly do: 'sheet'; readonly group: number; readonly change: (sheet: LimbSheet) => LimbSheet; readonly words?: string }
  | { readonly do: 'replace'; readonly form: VisitForm }
  | { readonly do: 'undo' };

const EMPTY: GirthCell = { text: '' };

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

/** One step of a person's work on the sheet. */
export function step(state: SheetState, action: SheetStep): SheetState {
  switch (action.do) {
    case 'focus':
      return { ...committed(state), editing: { place: action.place, before: cellAt(state.form, action.place) } };
    case 'blur':
      return committed(state);
    case 'type': {
      const cell = cellAt(state.form, action.place);
      const { kept: _asked, ...bare } = cell;
      const next = action.place.again ? { ...cell, again: action.text } : { ...bare, text: action.text };
      const editing = state.editing ?? { place: action.place, before: cell };
      return { ...state, form: placed(state.form, action.place, next), editing };
    }
    case 'restore':
      return state.editing ? { ...state, form: placed(state.form, state.editing.place, state.editing.before) } : state;
    case 'keep': {
      const cell = cellAt(state.form, action.place);
      return { ...state, form: placed(state.form, action.place, { ...cell, kept: [...(cell.kept ?? []), action.kept] }) };
    }
    case 'field':
      return { ...state, form: { ...state.form, ...action.change } };
    case 'sheet': {
      const sheets = state.form.sheets.map((sheet, index) => (index === action.group ? action.change(sheet) : sheet));
      const undo = action.words ? { form: state.form, words: action.words } : state.undo;
      return { ...state, form: { ...state.form, sheets }, editing: null, undo };
    }
    case 'replace':
      return { form: action.form, editing: null, undo: null, newest: null };
    case 'undo':
      return state.undo ? { ...state, form: state.undo.form, editing: null, undo: null } : state;
  }
}

function committed(state: SheetState): SheetState {
  return { ...state, editing: null, newest: isHalfTyped(state) && state.editing ? state.editing.place : state.newest };
}

function placed(form: VisitForm, place: CellPlace, cell: GirthCell): VisitForm {
  const sheets = form.sheets.map((sheet, index) => (index === place.group ? withCell(sheet, `${place.side}/${place.row}`, cell) : sheet));
  return { ...form, sheets };
}
