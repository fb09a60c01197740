'use client';

import { Fragment, useActionState, useEffect, useRef, useState } from 'react';
import { type FamilyFormState, familyPageAction } from '@/app/_family/actions';
import { type BoxChoice, typedBoxes } from '@/app/_form/typed-boxes';
import type { TextsAsked } from '@/lib/summary/family/clinic-texts';
import type { TypedFamily } from '@/lib/summary/family/read-family-form';
import { STEP_ROWS } from '@/lib/summary/family/step-rows';
import styles from './family.module.css';
import { FamilySheet } from './family-sheet';

type Props = {
  readonly patientId: string;
  readonly visitId: string;
  readonly submissionId: string;
  readonly limbs: readonly BoxChoice[];
  readonly languages: readonly BoxChoice[];
  /** What the engine says, for the therapist only; and by limb the pieces it finds outside their band, with the box that says they fit all the same. */
  readonly engine: readonly string[];
  readonly outside: readonly { readonly box: string; readonly limb: string; readonly says: readonly string[] }[];
  /** Whom the clinic's texts leave open to call, by language. */
  readonly asks: Readonly<Record<string, TextsAsked>>;
  readonly start: TypedFamily;
};

/** What the therapist says to the family; the page is shown under it, and approved only as shown. */
export function FamilyForm({ patientId, visitId, submissionId, limbs, languages, engine, outside, asks, start }: Props) {
  const [state, send, busy] = useActionState<FamilyFormState, FormData>(familyPageAction, { errors: {}, typed: null, page: null });
  const typed = state.typed ?? start;
  const { text, choice, tick } = typedBoxes(typed, state.errors);
  const refused = Object.keys(state.errors).length > 0;
  const [language, setLanguage] = useState(typed.language ?? '');
  const asked = asks[language] ?? { phone: false, night: false, care: false };
  const said = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (Object.keys(state.errors).length > 0) said.current?.focus();
  }, [state.errors]);
  return (
    <form
      action={send}
      noValidate
      onChange={({ target }) => {
        if (target instanceof HTMLSelectElement && target.name === 'language') setLanguage(target.value);
      }}
    >
      <div className="panel form">
        {refused && (
          <p className="refused-box" role="alert" tabIndex={-1} ref={said}>
            {state.errors.form ?? 'The page cannot be shown yet: look at the boxes below.'}
          </p>
        )}
        <input type="hidden" name="patientId" value={patientId} />
        <input type="hidden" name="visitId" value={visitId} />
        <input type="hidden" name="submissionId" value={submissionId} />
        <div className="two-columns">
          {choice('limb', 'Limb', limbs, null)}
          {choice('language', 'Language', languages, null)}
          {choice('reader', 'Who reads it', READERS, null)}
          {text('name', 'Name the family says', 'Shown on the page when the family reads it.')}
        </div>
        {engine.length + outside.length > 0 && (
          <div className="field">
            <span className="hint">For you only, since the first visit; none of it reaches the page by itself:</span>
            {[...new Set([...engine, ...outside.flatMap(({ says }) => says)])].map((one) => (
              <span key={one}>{one}</span>
            ))}
          </div>
        )}
        <div className="two-columns">
          {choice('change', 'What you say of the limb', SAID_OF_LIMB, 'Choose')}
          {choice('right', 'Is the garment still right?', SAID_OF_GARMENT, 'Choose')}
          {choice('why', 'Because', BECAUSE, 'no reason given')}
          {text('hours', 'Hours a day', 'Whole hours; empty says “as we showed you”.')}
        </div>
        {outside.map(({ box, limb }) => (
          <Fragment key={box}>{tick(box, `Outside its band, ${limb}`, `I saw it on the ${limb}: it fits all the same`)}</Fragment>
        ))}
        <fieldset className="field">
          <legend>What happens next</legend>
          <div className="option-row">
            {choice('step0Kind', 'Next visit', VISIT_WORDS, 'none planned')}
            {text('step0Day', 'Day of the visit', 'The planned day; it goes with the visit and with nothing else.', { type: 'date' })}
          </div>
          {OTHER_ROWS.map((row) => (
            <div key={row} className="option-row">
              {choice(`step${row}Kind`, row === 1 ? 'What else' : 'And then', STEP_WORDS, 'nothing else')}
              {text(`step${row}Day`, 'Its day', undefined, { type: 'date' })}
              {text(`step${row}Words`, 'Own words', 'For “own words” only.')}
            </div>
          ))}
        </fieldset>
        <div className="two-columns">
          {text('wornFor', 'Worn for', 'For a stranger in an emergency: “burns”, “a swollen leg”. Empty leaves a line to write on.', {
            maxLength: 80,
          })}
          {text('allergies', 'Allergies', 'Or “none known”. Empty says that none are written down.', { maxLength: 80 })}
        </div>
        {(asked.phone || asked.night || asked.care) && (
          <fieldset className="field">
            <legend>What the clinic’s texts do not say yet</legend>
            <span className="hint">
              It is asked here, in the language of the page, for this page alone. A lead writes it once for all under Clinic, Family texts.
            </span>
            <div className="two-columns">
              {asked.phone && text('phone', 'Phone', undefined, { maxLength: 40, type: 'tel' })}
              {asked.night && (
                <Fragment key={language}>
                  {text('night', 'At night and at weekends', 'A whole sentence: a number, or whom to call.', {
                    maxLength: 200,
                    lang: language,
                    defaultValue: typed.language === language ? (typed.night ?? '') : '',
                  })}
                </Fragment>
              )}
              {asked.care && (
                <Fragment key={`care ${language}`}>
                  {text('care', 'How to wear and wash it', 'Whole sentences. Empty: the page says to ask you.', {
                    maxLength: 300,
                    lang: language,
                    defaultValue: typed.language === language ? (typed.care ?? '') : '',
                  })}
                </Fragment>
              )}
            </div>
          </fieldset>
        )}
        {text('note', 'Anything else, in plain words', 'Short sentences. No figures of pressure, no diagnosis.')}
        <div className="actions">
          <button type="submit" name="intent" value="show" className="button main" aria-disabled={busy}>
            {state.page ? 'Show it again' : 'Show the page'}
          </button>
        </div>
      </div>
      {state.page && (
        <>
          <FamilySheet page={state.page} />
          <input type="hidden" name="shown" value={JSON.stringify(state.page)} />
          <div className={`actions ${styles.familyApprove}`}>
            <button type="submit" name="intent" value="approve" className="button main" aria-disabled={busy}>
              I have read it: approve and freeze
            </button>
          </div>
        </>
      )}
    </form>
  );
}

const OTHER_ROWS = Array.from({ length: STEP_ROWS - 1 }, (_, row) => row + 1);
const READERS = [
  { key: 'family', words: 'the family' },
  { key: 'patient', words: 'the patient' },
];
const SAID_OF_LIMB = [
  { key: 'first', words: 'first figures' },
  { key: 'grew-along', words: 'grew with the body' },
  { key: 'same', words: 'same size' },
  { key: 'larger', words: 'bigger than we thought' },
  { key: 'smaller', words: 'smaller' },
  { key: 'not-sure', words: 'not clear this time' },
];
const SAID_OF_GARMENT = [
  { key: 'yes', words: 'yes' },
  { key: 'soon', words: 'yes, not for long' },
  { key: 'no', words: 'no' },
  { key: 'not-sure', words: 'not sure yet: measure again' },
];
const BECAUSE = [
  { key: 'growing', words: 'growing' },
  { key: 'less-stretch', words: 'fabric has lost stretch' },
  { key: 'changed', words: 'limb changed in size' },
];
const VISIT_WORDS = [
  { key: 'visit', words: 'come in, measure again' },
  { key: 'remeasure', words: 'come in, measure again' },
  { key: 'try-on', words: 'come in to try it on' },
];
const STEP_WORDS = [
  { key: 'order', words: 'we order the new garment' },
  { key: 'delivery', words: 'new garment arrives' },
  ...VISIT_WORDS,
  { key: 'call', words: 'we call' },
  { key: 'other', words: 'own words' },
];
