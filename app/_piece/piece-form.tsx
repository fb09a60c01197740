'use client';

import { useActionState } from 'react';
import { Field } from '@/app/_form/field';
import type { PieceBox, TypedPieceForm } from '@/lib/forms/read-piece-form';
import { CoverEnds } from './cover-ends';
import type { LadderChoice } from './cut-ladders';
import { type PieceFormState, savePieceAction } from './save-piece';

type Props = {
  readonly patientId: string;
  readonly pieceId: string | null;
  readonly revision: number;
  readonly submissionId: string;
  readonly start: TypedPieceForm;
  readonly ladders: readonly LadderChoice[];
  readonly today: string;
};

/** The form of one piece, new or changed. It posts without script; a refused form keeps every word typed. */
export function PieceForm({ patientId, pieceId, revision, submissionId, start, ladders, today }: Props) {
  const [state, send, busy] = useActionState<PieceFormState, FormData>(savePieceAction, { errors: {}, typed: null, notice: null });
  const typed = state.typed ?? start;
  const text = (box: PieceBox, label: string, hint?: string, type = 'text') => (
    <Field id={box} label={label} hint={hint} refusal={state.errors[box]}>
      {(wiring) => (
        <input
          {...wiring}
          type={type}
          defaultValue={typed[box]}
          autoComplete="off"
          max={type === 'date' && box !== 'firstWorn' ? today : undefined}
        />
      )}
    </Field>
  );
  const ends = ladders.find((one) => one.key === typed.cutFrom)?.ends ?? ladders[0]?.ends ?? [];
  return (
    <form className="panel form" action={send} noValidate>
      {state.notice && (
        <p className="refused-box" role="alert">
          {state.notice}
        </p>
      )}
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="pieceId" value={pieceId ?? ''} />
      <input type="hidden" name="revision" value={revision} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <CoverEnds ends={ends} />
      <div className="two-columns">
        {text('piece', 'Piece', 'A number or name that stands in the garment. Two of one order are two pieces.')}
        <Field id="cutFrom" label="Made to the measurements of" refusal={state.errors.cutFrom}>
          {(wiring) => (
            <select {...wiring} key={typed.cutFrom} defaultValue={typed.cutFrom}>
              <option value="" disabled>
                Choose a ladder
              </option>
              {ladders.map((ladder) => (
                <option key={ladder.key} value={ladder.key}>
                  {ladder.words}
                </option>
              ))}
            </select>
          )}
        </Field>
        {(['from', 'to'] as const).map((box) => (
          <Field
            key={box}
            id={box}
            label={box === 'from' ? 'Covers from' : 'Covers to'}
            hint="A landmark, or a distance on the ladder."
            refusal={state.errors[box]}
          >
            {(wiring) => <input {...wiring} list="cover-ends" defaultValue={typed[box]} autoComplete="off" />}
          </Field>
        ))}
        {text('reduction', 'Reduction, %', 'As ordered.')}
        <Field
          id="convention"
          label="Reduction is counted as"
          hint="20 % of one is 16.7 % of the other: look at the order."
          refusal={state.errors.convention}
        >
          {(wiring) => (
            <select {...wiring} key={typed.convention} defaultValue={typed.convention}>
              <option value="C(1-r)">relaxed girth = girth × (1 − reduction)</option>
              <option value="C/(1+r)">relaxed girth = girth ÷ (1 + reduction)</option>
            </select>
          )}
        </Field>
        {text('allowance', 'Room to let out', 'Total width with its unit, 2 cm or 3/4 in; empty for none.')}
        {text('lifeDays', 'Expected life, days', 'Counted from first wear.')}
        {text('leadDays', 'Making and delivery, days')}
        {text('firstWorn', 'First worn', 'Empty until it is worn.', 'date')}
        {text('firstFit', 'First fit checked', 'Empty until it is checked.', 'date')}
        {text('retired', 'Taken out of use', 'Empty while it may be worn.', 'date')}
        {text('retiredReason', 'Why it was taken out of use', 'Worn out, outgrown, lost, damaged, condition changed, stopped.')}
      </div>
      {pieceId && (
        <label className="field">
          Why this is changed
          <input type="text" name="reason" maxLength={200} defaultValue="" placeholder="first worn, checked, out of use, a correction" />
        </label>
      )}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          {pieceId ? 'Save the piece' : 'Add the piece'}
        </button>
        <a className="button" href={`/patients/${patientId}`}>
          Leave without saving
        </a>
      </div>
    </form>
  );
}
