'use client';

import { type ReactNode, useActionState } from 'react';
import { NotSaved } from '@/app/_form/not-saved';
import { typedBoxes } from '@/app/_form/typed-boxes';
import { LONGEST_REASON } from '@/lib/forms/read-reason';
import { LONGEST_FACT, MOST_OF_A_KIND } from '@/lib/record/work-facts';
import { type FactsFormState, saveFactsAction } from './actions';
import styles from './work.module.css';

type Props = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly number: number;
  readonly today: string;
  readonly start: Readonly<Record<string, string>>;
};

const PLACES = Array.from({ length: MOST_OF_A_KIND }, (_, place) => place);
const HANDS = [
  { key: 'left', words: 'left' },
  { key: 'right', words: 'right' },
  { key: 'both', words: 'both alike' },
];
const LONG = { maxLength: LONGEST_FACT.words };
const SHORT = { maxLength: LONGEST_FACT.short };

/** Who the person is for the work: every box may stay empty. A refused form keeps every word typed. */
export function FactsForm({ patientId, submissionId, number, today, start }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<FactsFormState, FormData>(saveFactsAction, { errors: {}, typed: null });
  const { text, choice, tick } = typedBoxes(typed ?? start, errors);
  /** The first place of a kind and those that hold something; the empty ones behind one line, which works without script too. */
  const places = (keys: readonly string[], more: string, boxes: (place: number) => ReactNode) => {
    const isHeld = (place: number) => keys.some((key) => (typed ?? start)[`${key}${place}`] || errors[`${key}${place}`]);
    const empty = PLACES.filter((place) => place > 0 && !isHeld(place));
    return (
      <>
        {PLACES.filter((place) => !empty.includes(place)).map(boxes)}
        {empty.length > 0 && (
          <details className={`as-table ${styles.more}`}>
            <summary>{more}</summary>
            {empty.map(boxes)}
          </details>
        )}
      </>
    );
  };
  const past = { type: 'date', max: today };
  return (
    <form className="panel form" action={send} noValidate aria-label="For the work" key={typed ? 'typed' : 'start'}>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <input type="hidden" name="number" value={number} />
      <NotSaved errors={errors} />
      <h2>Whom to call</h2>
      {places(['contactName', 'contactRelation', 'contactPhone'], 'Another person to call', (place) => (
        <div key={place} className={styles.grid}>
          {text(`contactName${place}`, place === 0 ? 'Name, called first' : `Name ${place + 1}`, undefined, SHORT)}
          {text(`contactRelation${place}`, `Relation of contact ${place + 1}`, undefined, SHORT)}
          {text(`contactPhone${place}`, `Phone of contact ${place + 1}`, undefined, { ...SHORT, type: 'tel' })}
        </div>
      ))}
      {tick('interpreter', 'Language', 'An interpreter is needed')}
      <h2>Referral</h2>
      <div className={styles.grid}>
        {text('referralDay', 'Referred on', undefined, past)}
        {text('referralUntil', 'Referral ends on', 'Asked for anew some weeks before.', { type: 'date' })}
        {text('prescriber', 'Prescriber', 'Stands in letters.', SHORT)}
        {text('prescriberReach', 'How the prescriber is reached', undefined, LONG)}
        {text('referralFor', 'What was ordered', undefined, LONG)}
      </div>
      <h2>What happened</h2>
      <div className={styles.grid}>
        {text('cause', 'Cause', 'In the clinic’s words.', LONG)}
        {text('injured', 'Day it happened', undefined, past)}
        {text('healed', 'Day the wounds were closed', undefined, past)}
        {places(['grafted'], 'Another graft', (place) => (
          <div key={place}>{text(`grafted${place}`, `Graft ${place + 1}`, undefined, past)}</div>
        ))}
        {text('burntPct', 'Burnt area, % of the body’s surface', 'Widens a child’s outlook after a large burn.', { inputMode: 'decimal' })}
        {text('stage', 'Stage', 'In the clinic’s words.', SHORT)}
        {choice('dominantHand', 'Hand used for most things', HANDS, 'not asked yet', 'Said beside the difference of arms.')}
      </div>
      <h2>Consent</h2>
      {places(['consentTo', 'consentDay'], 'Another consent', (place) => (
        <div key={place} className={styles.grid}>
          {text(`consentTo${place}`, `Consent ${place + 1} to`, undefined, LONG)}
          {text(`consentDay${place}`, `Day of consent ${place + 1}`, undefined, past)}
        </div>
      ))}
      {number > 0 &&
        text('reason', 'Why it is changed', 'Stands in the history; the state before stays readable.', { maxLength: LONGEST_REASON.facts })}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Save
        </button>
        <a className="button" href={`/patients/${patientId}`}>
          Leave as it is
        </a>
      </div>
    </form>
  );
}
