'use client';

import { type ReactNode, useActionState } from 'react';
import { FieldGroup } from '@/app/_form/field';
import { asChoices, typedBoxes } from '@/app/_form/typed-boxes';
import { CUSTOM_REASONS, LETTER_REASONS } from '@/lib/summary/letter/letter-reasons';
import { LETTER_HEADS } from '@/lib/summary/letter/letter-words';
import type { TypedLetter } from '@/lib/summary/letter/read-letter-form';
import styles from './letter.module.css';
import { LetterSheet } from './letter-sheet';
import { type LetterFormState, signLetterAction } from './sign-letter';

type Props = {
  readonly patientId: string;
  readonly pieceId: string;
  readonly submissionId: string;
  readonly start: TypedLetter;
  /** Measurements and coverage as they will stand; they come from the record and are not typed. */
  readonly evidence: ReactNode;
  readonly coverage: ReactNode;
};

/** The draft of a letter, section by section; it is shown under the form, and signed only as shown. A refused form keeps every word. */
export function LetterForm({ patientId, pieceId, submissionId, start, evidence, coverage }: Props) {
  const [state, send, busy] = useActionState<LetterFormState, FormData>(signLetterAction, { errors: {}, typed: null, letter: null });
  const typed = state.typed ?? start;
  const { errors } = state;
  const refused = Object.keys(errors).filter((box) => box !== 'form').length;
  const { text, words, choice } = typedBoxes(typed, errors);
  return (
    <form className={styles.letterForm} action={send} noValidate>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="pieceId" value={pieceId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <div className="panel form">
        {(errors.form || refused > 0) && (
          <p className="refused-box" role="alert">
            {errors.form ?? `Nothing is signed yet: ${refused === 1 ? 'one box needs' : `${refused} boxes need`} another look, below.`}
          </p>
        )}
        <h2>{LETTER_HEADS.who}</h2>
        <div className="two-columns">
          {text('payer', 'Payer')}
          {text('payerNumber', 'Number with the payer', 'Empty where there is none.')}
        </div>
        <h2>{LETTER_HEADS.diagnosis}</h2>
        {words('diagnosis', 'Diagnosis, in your words', 'With its code where the payer asks for one.')}
        {text('onset', 'Onset, injury or operation', 'What and when; empty where it is not known.')}
        <h2>{LETTER_HEADS.prescriber}</h2>
        <div className="two-columns">
          {text('prescriber', 'Prescriber')}
          {text('orderDay', 'Date of the prescriber’s order', undefined, { type: 'date' })}
        </div>
        <label className="choice">
          <input type="checkbox" name="orderHeld" key={typed.orderHeld} defaultChecked={Boolean(typed.orderHeld)} />
          The signed and dated order is held by the clinic
        </label>
        <h2>{LETTER_HEADS.asked}</h2>
        {words('asked', 'The piece asked for', 'From the record. Add why each option is needed.', 5)}
        <h2>{LETTER_HEADS.custom}</h2>
        <FieldGroup id="custom" label="Tick what holds">
          {CUSTOM_REASONS.map((one, index) => (
            <label key={one} className="choice">
              <input
                type="checkbox"
                name={`custom${index}`}
                key={typed[`custom${index}`]}
                defaultChecked={Boolean(typed[`custom${index}`])}
              />
              {one}
            </label>
          ))}
        </FieldGroup>
        {words('customWords', 'In your words', 'The figures beyond the size chart, what was tried and when.')}
        <h2>{LETTER_HEADS.replaces}</h2>
        {words('replaces', 'The piece it replaces', 'From the record. Say in what state it is: tears, lost elasticity, fit.', 6)}
        <h2>{LETTER_HEADS.reason}</h2>
        <div className="two-columns">
          {choice('reason', 'Primary reason', asChoices(LETTER_REASONS), 'Choose one', 'Exactly one.')}
          {text('incidentDay', 'Day it happened', 'For a piece lost, stolen or damaged.', { type: 'date' })}
        </div>
        {words('reasonWords', 'What happened or changed', 'In your words.')}
        <h2>{LETTER_HEADS.evidence}</h2>
        {evidence}
        {words('evidenceWords', 'To add to the measurements', 'Photographs, another method. Empty for nothing.', 2)}
        <h2>{LETTER_HEADS.effect}</h2>
        {words('effect', 'Effect of not replacing it', 'Plain and clinical.')}
        <h2>{LETTER_HEADS.wear}</h2>
        {words('wear', 'Wear plan and response', 'From the record. Say how the limb has responded.')}
        <h2>{LETTER_HEADS.coverage}</h2>
        {coverage}
        {words('coverageWords', 'To add on coverage', 'Empty for nothing.', 2)}
        <h2>{LETTER_HEADS.signature}</h2>
        {text('attachments', 'Attached', 'Empty for nothing.')}
        <div className="two-columns">
          {text('signer', 'Signed by')}
          {text('credentials', 'Credentials')}
        </div>
        <div className="actions">
          <button type="submit" name="intent" value="show" className="button main" aria-disabled={busy}>
            {state.letter ? 'Show it again' : 'Show the letter'}
          </button>
          <a className="button" href={`/patients/${patientId}/pieces/${pieceId}`}>
            Leave without signing
          </a>
        </div>
      </div>
      {state.letter && (
        <>
          <LetterSheet letter={state.letter} />
          <input type="hidden" name="shown" value={JSON.stringify(state.letter)} />
          <div className={`actions ${styles.letterSign}`}>
            <button type="submit" name="intent" value="sign" className="button main" aria-disabled={busy}>
              I have read it: sign and freeze
            </button>
          </div>
        </>
      )}
    </form>
  );
}
