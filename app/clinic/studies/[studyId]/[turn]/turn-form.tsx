'use client';

import { type KeyboardEvent, useActionState, useEffect, useRef, useState } from 'react';
import { typedBoxes } from '@/app/_form/typed-boxes';
import { cellId, GirthCell } from '@/app/_sheet/table/girth-cell';
import type { CellPlace } from '@/lib/entry/entry-state';
import type { LimbKind, Side } from '@/lib/ladder/limb';
import type { LengthUnit } from '@/lib/units/length';
import { nameOf } from '@/lib/units/read-length';
import { keepStudyDraftAction, type StudyFormState, saveStudyRunAction } from '../../actions';
import styles from './turn.module.css';

type Props = {
  readonly studyId: string;
  readonly turn: string;
  readonly unit: LengthUnit;
  readonly places: readonly string[];
  readonly side: Side;
  readonly limb: LimbKind;
  readonly texts: readonly string[];
  /** How often it was typed before: above 0 it is corrected. */
  readonly expected: number;
  readonly submissionId: string;
};

/** Rest between the last key and the keeping of the draft, ms. */
const REST_MS = 400;

/** The girths of one taping: digits and Enter, a box a rung. What is typed is kept on the server as it is typed. */
export function TurnForm({ studyId, turn, unit, places, side, limb, texts, expected, submissionId }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<StudyFormState, FormData>(saveStudyRunAction, { errors: {}, typed: null });
  const [girths, setGirths] = useState(texts);
  const [kept, setKept] = useState<'as loaded' | 'waiting' | 'kept' | 'not kept'>('as loaded');
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    if (kept !== 'waiting' || expected > 0) return;
    const timer = setTimeout(async () => {
      const isKept = await keepStudyDraftAction(studyId, turn, girths).catch(() => false);
      setKept((now) => (now === 'waiting' ? (isKept ? 'kept' : 'not kept') : now));
    }, REST_MS);
    return () => clearTimeout(timer);
  }, [girths, kept, expected, studyId, turn]);
  const placeOf = (row: number): CellPlace => ({ group: 0, side, row: String(row), again: false });
  const type = (row: number, text: string) => {
    setGirths((now) => now.map((one, at) => (at === row ? text : one)));
    setKept('waiting');
  };
  const goTo = (row: number) => {
    const box = document.getElementById(cellId(placeOf(row)));
    if (box instanceof HTMLInputElement) box.focus();
    else form.current?.querySelector<HTMLElement>('input[name="removed"], input[name="reason"]')?.focus();
  };
  const onKey = (event: KeyboardEvent<HTMLInputElement>, row: number) => {
    const step = { Enter: 1, ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    if (row + step >= 0) goTo(row + step);
  };
  const { tick, text } = typedBoxes(typed ?? {}, errors);
  const refusedRows = places.flatMap((place, row) => (errors[`g${row}`] ? [`${place}: ${errors[`g${row}`]}`] : []));
  return (
    <form className="panel form" action={send} noValidate ref={form} aria-label="The girths">
      <input type="hidden" name="studyId" value={studyId} />
      <input type="hidden" name="turn" value={turn} />
      <input type="hidden" name="expected" value={expected} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <div role="alert" className="refusal">
        {errors.form ?? (Object.keys(errors).length > 0 ? 'Nothing was saved yet. ' : '')}
        {refusedRows.map((words) => (
          <p key={words}>{words}</p>
        ))}
      </div>
      <table className={styles.girths}>
        <caption>{`Girths in ${nameOf(unit)}, from the lowest up. Enter goes to the next.`}</caption>
        <thead>
          <tr>
            <th scope="col">{`At, ${unit}`}</th>
            <th scope="col">Girth</th>
          </tr>
        </thead>
        <tbody>
          {places.map((place, row) => (
            <tr key={place}>
              <th scope="row">{place}</th>
              <td>
                <input type="hidden" name={`g${row}`} value={girths[row] ?? ''} />
                <GirthCell
                  place={placeOf(row)}
                  label={`${side} ${limb}, girth at ${place} ${nameOf(unit)}`}
                  text={girths[row] ?? ''}
                  look={errors[`g${row}`] ? 'refused' : girths[row] ? 'typed' : 'waiting'}
                  describedBy="study-kept"
                  onType={(_, words) => type(row, words)}
                  onFocus={() => {}}
                  onBlur={() => {}}
                  onKey={(event) => onKey(event, row)}
                  onPasteText={() => false}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="secondary" id="study-kept" aria-live="polite">
        {kept === 'kept' && 'Kept; you can go on later.'}
        {kept === 'not kept' && 'The draft could not be kept: save before you leave this page.'}
      </p>
      {expected === 0
        ? tick('removed', 'Marks', 'Every mark of a taping before is off the skin')
        : text('reason', 'Why it is corrected', undefined, { maxLength: 200 })}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          {expected === 0 ? 'Save, and on to the next' : 'Save the correction'}
        </button>
      </div>
    </form>
  );
}
