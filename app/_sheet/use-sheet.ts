import { type KeyboardEvent, useCallback, useLayoutEffect, useMemo, useReducer, useRef, useState } from 'react';
import { keepInWords } from '@/lib/entry/act-in-words';
import { fixFor, keptAt } from '@/lib/entry/answer-question';
import { type Asked, withAsked } from '@/lib/entry/asked-by-server';
import { acrossPlace, type CellWish, cellWish, firstEmpty, nextLimb, nextPlace } from '@/lib/entry/cell-keys';
import { isGirthRead } from '@/lib/entry/cell-reading';
import type { SheetData } from '@/lib/entry/entry-data';
import { type CellPlace, cellAt, committedForm, isHalfTyped, opened, step } from '@/lib/entry/entry-state';
import { type OpenQuestion, typedView as viewAsTyped } from '@/lib/entry/typed-view';
import { showLengthWithUnit } from '@/lib/units/show-length';
import { withMoved } from '@/lib/visit-form/change-set-up';
import { sheetRows } from '@/lib/visit-form/entry-rows';
import { cellKey, type LimbSheet } from '@/lib/visit-form/visit-form';
import { cellId } from './table/girth-cell';
import type { Answer } from './table/question-card';
import type { SecondPart } from './use-second-part';

/** What the sheet as a whole is asked to do by a key in a cell. */
export type SheetCallbacks = {
  readonly onFinished: () => void;
  readonly onPlace: () => void;
  readonly onSingle: () => void;
  readonly onReadBack: () => void;
  readonly onUnit: () => void;
  readonly onSetUp: () => void;
};

/** The state of a sheet on screen: what is typed, which limb kind and question are shown, and what every key and answer does. */
export function useSheet(data: SheetData, asked: Asked | null, part: SecondPart | undefined, callbacks: SheetCallbacks) {
  const [state, dispatch] = useReducer(step, data.form, opened);
  const [group, setGroup] = useState(0);
  const [picked, setPicked] = useState<OpenQuestion | null>(null);
  const [shown, setShown] = useState(data.form.sheets[0]?.sides[0] ?? 'right');
  /** The last rung of a limb, once Enter was pressed there. */
  const [ended, setEnded] = useState<CellPlace | null>(null);
  const goTo = useRef<CellPlace | null>(null);
  const committed = useMemo(() => committedForm(state), [state]);
  const view = useMemo(() => {
    const at = Math.min(group, committed.sheets.length - 1);
    const own = (part?.sheetView ?? viewAsTyped)(committed, at, data);
    return own && { ...own, questions: withAsked(own.questions, at, committed, asked) };
  }, [committed, group, data, asked, part]);
  const typedView = useMemo(() => {
    const sheet = state.form.sheets[Math.min(group, state.form.sheets.length - 1)];
    return sheet && { sheet, rows: sheetRows(sheet) };
  }, [state.form, group]);
  const question = openQuestion(view?.questions ?? [], picked, state.newest);

  useLayoutEffect(() => {
    const place = goTo.current;
    if (!place) return;
    goTo.current = null;
    const box = document.getElementById(cellId(place)) as HTMLInputElement | null;
    box?.focus();
    box?.select();
  });

  const focus = useCallback((place: CellPlace | undefined) => {
    if (!place) return;
    goTo.current = place;
    setShown(place.side);
    setEnded(null);
    dispatch({ kind: 'focus', place });
  }, []);

  const answer = (given: Answer, about: OpenQuestion | undefined = question): void => {
    const sheet = view?.sheet;
    if (!about || !sheet) return;
    setPicked(null);
    const place: CellPlace = { group, side: about.side, row: about.row, again: false };
    if (given === 'again') againFor(about, place);
    else if (given === 'keep') {
      const kept = { kind: about.doubt.kind, by: data.who, at: new Date().toISOString() };
      const text = sheet.cells[cellKey(about.side, about.row)]?.text ?? '';
      dispatch({ kind: 'keep', place: { ...place, row: keptAt(about, sheet) }, kept, words: keepInWords(about.doubt, text, sheet.unit) });
    } else if (about.doubt.kind === 'inch-centimetre' && about.whole) callbacks.onUnit();
    else mend(about, place, sheet);
  };

  const mend = (about: OpenQuestion, place: CellPlace, sheet: LimbSheet): void => {
    const fix = fixFor(about, sheet);
    if (!fix) return;
    dispatch({ kind: 'sheet', group, change: fix.change, words: fix.words });
    const now = state.editing?.place;
    if (fix.goTo) focus({ ...place, row: fix.goTo });
    else if (now) focus(now);
  };

  const againFor = (about: OpenQuestion, place: CellPlace): void => {
    const box =
      about.doubt.kind === 'ladder-length' || about.doubt.kind === 'body-size'
        ? document.querySelector<HTMLInputElement>('[data-marks] input, [data-body-fields] input')
        : null;
    if (about.doubt.kind === 'zero-direction') callbacks.onSetUp();
    else if (box) box.focus();
    else focus(place);
  };

  const onKey = (event: KeyboardEvent<HTMLInputElement>, place: CellPlace): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.nativeEvent.isComposing) return;
    const wish = cellWish(event.key, event.currentTarget, question !== undefined);
    if (!wish || !typedView) return;
    event.preventDefault();
    const half = isHalfTyped(state);
    const deeds: Record<NonNullable<CellWish>, () => void> = {
      next: () => enter(place),
      down: () => focus(nextPlace(typedView, place, 1)),
      up: () => focus(nextPlace(typedView, place, -1)),
      across: () => focus(acrossPlace(typedView, place)),
      escape: () => (half ? dispatch({ kind: 'restore' }) : answer('again')),
      fits: () => answer('fits'),
      keep: () => answer('keep'),
      place: callbacks.onPlace,
      single: callbacks.onSingle,
      back: callbacks.onReadBack,
      limb: () => goOn(place),
      question: nextQuestion,
      gap: () => insertRung(place),
    };
    deeds[wish]();
  };

  /** The question after the one shown, wherever its rung is; the sheet moves to where it can be read. */
  const nextQuestion = (): void => {
    const all = view?.questions ?? [];
    const next = all[(all.indexOf(question as OpenQuestion) + 1) % all.length];
    if (!next) return;
    setPicked(next);
    setShown(next.side);
    requestAnimationFrame(() => [...document.querySelectorAll('[data-question]')].map((card) => card.scrollIntoView({ block: 'nearest' })));
  };

  /** A rung was left out: the figures from here on move one rung further and leave this one empty. */
  const insertRung = (place: CellPlace): void => {
    if (!typedView || !cellAt(state.form, place).text) return;
    const at = typedView.rows.find((row) => row.key === place.row)?.at[place.side];
    const where = at ? ` at ${showLengthWithUnit(at.nm / 1e6, typedView.sheet.unit, 16)}` : '';
    dispatch({ kind: 'sheet', group, change: (one) => withMoved(one, place.side, place.row, 1), words: `insert a rung${where}` });
    focus(place);
  };

  /** Enter takes the figure and goes on; on a figure that cannot be read, and on the last rung of a limb, it stays. */
  const enter = (place: CellPlace): void => {
    const cell = cellAt(state.form, place);
    const readable = isGirthRead(place.again ? (cell.again ?? '') : cell.text, typedView?.sheet.unit ?? 'in');
    const next = readable && typedView ? nextPlace(typedView, place, 1) : undefined;
    if (readable) setPicked(null);
    if (next) focus(next);
    else dispatch({ kind: 'blur' });
    if (readable && !next) setEnded(place);
  };

  /** On to the next limb, or from the last one to the button that finishes. */
  const goOn = (place: CellPlace): void => {
    const next = typedView && nextLimb(typedView, place);
    setEnded(null);
    if (next) focus(next);
    else callbacks.onFinished();
  };

  const startTyping = (): void => {
    const side = view?.sheet.sides[0];
    if (view && side) focus({ group, side, row: firstEmpty(view, side, false), again: false });
  };

  const atEnd = ended && (!state.editing || cellId(state.editing.place) === cellId(ended)) ? ended : null;
  const moves = { focus, answer, onKey, enter, goOn, startTyping, nextQuestion, insertRung };
  return { state, dispatch, view, group, setGroup, question, ask: setPicked, shown, setShown, ended: atEnd, ...moves };
}

/** The question shown: the one picked, else that of the figure typed last, else the last one on the ladder. */
function openQuestion(questions: readonly OpenQuestion[], picked: OpenQuestion | null, newest: CellPlace | null): OpenQuestion | undefined {
  const same = (one: OpenQuestion) => picked && one.side === picked.side && one.row === picked.row && one.doubt.kind === picked.doubt.kind;
  return (
    questions.find(same) ??
    questions.find((one) => newest && one.side === newest.side && one.row === newest.row && !one.whole) ??
    questions.at(-1)
  );
}
