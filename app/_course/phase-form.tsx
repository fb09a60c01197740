'use client';

import { useActionState, useState } from 'react';
import { Field } from '@/app/_form/field';
import { NotSaved } from '@/app/_form/not-saved';
import { ENDED_AS, PHASE_KINDS, type Phase } from '@/lib/course/phases';
import { LONGEST_NOTE } from '@/lib/forms/read-phase-form';
import { ENDED_WORDS, PHASE_WORDS } from '@/lib/summary/phase-words';
import { type PhaseFormState, savePhaseAction } from './actions';
import styles from './course.module.css';

type Props = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly today: string;
  /** The writing of the course that the form stands on. */
  readonly number: number;
  /** The phase that is corrected, and its place among them; null for a new one. */
  readonly corrected: { readonly at: number; readonly phase: Phase } | null;
  /** Days on which something was measured, in words, the newest first. */
  readonly visits: readonly { readonly day: string; readonly words: string }[];
  readonly holdAskDays: number;
};

/** The form of a phase, new or corrected. Boxes that a kind does not have are not shown; a refused form keeps every word typed. */
export function PhaseForm({ patientId, submissionId, today, number, corrected, visits, holdAskDays }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<PhaseFormState, FormData>(savePhaseAction, { errors: {}, typed: null });
  const start: Readonly<Record<string, string | null | undefined>> = typed ?? corrected?.phase ?? { from: today };
  const [kind, setKind] = useState(start.kind ?? '');
  const [endedAs, setEndedAs] = useState(start.endedAs ?? '');
  const rests = kind === 'on-hold' || kind === 'ended';
  const wasDeath = corrected?.phase.endedAs === 'died';
  // Without script the kind is chosen after the boxes were made: those of a rest stand there from the start.
  const howEnded = (
    <Field id="endedAs" label="How it ended" refusal={errors.endedAs}>
      {(wiring) => (
        <select
          {...wiring}
          key={start.endedAs}
          defaultValue={start.endedAs ?? ''}
          onChange={(event) => setEndedAs(event.target.value)}
          required
        >
          <option value="" disabled>
            Choose one
          </option>
          {ENDED_AS.map((one) => (
            <option key={one} value={one}>
              {ENDED_WORDS[one]}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
  const askAgain = (
    <Field
      id="askOn"
      label="Ask again on"
      hint={kind === 'on-hold' ? `Empty: after ${holdAskDays} days.` : 'Empty: never.'}
      refusal={errors.askOn}
    >
      {(wiring) => <input {...wiring} type="date" defaultValue={start.askOn ?? ''} key={start.askOn} />}
    </Field>
  );
  return (
    <form className="panel form" action={send} noValidate aria-label={corrected ? 'Correct a phase' : 'Begin a phase'}>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <input type="hidden" name="number" value={number} />
      {corrected && <input type="hidden" name="at" value={corrected.at} />}
      <NotSaved errors={errors} />
      <div className={styles.phaseForm}>
        <Field id="kind" label="Phase" hint="Of the course of care." refusal={errors.kind}>
          {(wiring) => (
            <select {...wiring} key={start.kind} defaultValue={start.kind ?? ''} onChange={(event) => setKind(event.target.value)} required>
              <option value="" disabled>
                Choose one
              </option>
              {PHASE_KINDS.map((one) => (
                <option key={one} value={one}>
                  {PHASE_WORDS[one]}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field id="from" label={kind === 'ended' ? 'Ended on' : 'Begins on'} hint="The phase before ends with it." refusal={errors.from}>
          {(wiring) => <input {...wiring} type="date" max={today} defaultValue={start.from ?? ''} key={start.from} required />}
        </Field>
        {kind === 'ended' ? howEnded : <noscript>{howEnded}</noscript>}
        {kind !== 'ended' && (
          <Field id="until" label="Ends on" hint="Empty: until the next begins." refusal={errors.until}>
            {(wiring) => <input {...wiring} type="date" defaultValue={start.until ?? ''} key={start.until} />}
          </Field>
        )}
        {!rests && (
          <Field id="baselineDay" label="Verdicts compare with" hint="The baseline of the phase." refusal={errors.baselineDay}>
            {(wiring) => (
              <select {...wiring} defaultValue={start.baselineDay ?? ''} key={start.baselineDay}>
                <option value="">its first good visit</option>
                {visits.map(({ day, words }) => (
                  <option key={day} value={day}>
                    {words}
                  </option>
                ))}
              </select>
            )}
          </Field>
        )}
        {rests && !(kind === 'ended' && endedAs === 'died') ? askAgain : !rests && <noscript>{askAgain}</noscript>}
        <div className={styles.wide}>
          <Field id="note" label={rests ? 'Why' : 'Note'} hint="In the clinic’s words." refusal={errors.note}>
            {(wiring) => <input {...wiring} defaultValue={start.note ?? ''} key={start.note} maxLength={LONGEST_NOTE} autoComplete="off" />}
          </Field>
        </div>
        {corrected && (
          <div className={styles.wide}>
            <Field
              id="reason"
              label="Why it is changed"
              hint="Stands in the history; the state before stays readable."
              refusal={errors.reason}
            >
              {(wiring) => (
                <input
                  {...wiring}
                  defaultValue={typed?.reason ?? ''}
                  key={typed?.reason}
                  maxLength={LONGEST_NOTE}
                  autoComplete="off"
                  required
                />
              )}
            </Field>
          </div>
        )}
        {wasDeath && (
          <div className={styles.wide}>
            <label className="choice">
              <input type="checkbox" name="deathWasMistaken" value="yes" aria-describedby="death-refusal" />
              The death was noted by mistake. Links, dates, prompts and orders go on again.
            </label>
            <p className="refusal" id="death-refusal">
              {errors.deathWasMistaken}
            </p>
          </div>
        )}
      </div>
      {kind === 'ended' && endedAs === 'died' && !wasDeath && (
        <p className="secondary">
          At once every shared link answers nothing, dates leave the calendar, and no order or letter leaves. The record stays readable.
        </p>
      )}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          {corrected ? 'Save the correction' : kind === 'ended' ? 'End the course' : 'Begin the phase'}
        </button>
        {corrected && (
          <button type="submit" className="button" name="intent" value="take back" aria-disabled={busy}>
            Take this phase back
          </button>
        )}
        <a className="button" href={corrected ? `/patients/${patientId}/course` : `/patients/${patientId}`}>
          Leave as it is
        </a>
      </div>
    </form>
  );
}
