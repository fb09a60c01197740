'use client';

import { useActionState } from 'react';
import { NotSaved } from '@/app/_form/not-saved';
import { asChoices, typedBoxes } from '@/app/_form/typed-boxes';
import { OWN_FORM_LADDERS } from '@/lib/garment-forms/garment-catalogue';
import { OWN_FORM_BOUNDS } from '@/lib/garment-forms/own-form';
import { PARTS } from '@/lib/parts/measure';
import { OWN_MEASURE_BOUNDS } from '@/lib/parts/own-measure';
import { addOwnFormAction, addOwnMeasureAction, type OwnPartState } from './actions';
import styles from './clinic-parts.module.css';

const START: OwnPartState = { errors: {}, typed: null };
const KINDS = [
  { key: 'girth', words: 'girth, round' },
  { key: 'length', words: 'length, along the skin' },
  { key: 'height', words: 'height above floor or seat' },
  { key: 'breadth', words: 'breadth, across' },
];
const SIDES = [
  { key: 'both', words: 'left and right' },
  { key: 'middle', words: 'once, in the middle' },
];

/** A measure to be added. */
export function OwnMeasureForm() {
  const [{ errors, typed }, send, busy] = useActionState<OwnPartState, FormData>(addOwnMeasureAction, START);
  const { text, choice } = typedBoxes(typed ?? {}, errors, (box) => `measure-${box}`);
  return (
    <form className="panel form" action={send} noValidate aria-label="Add a named measure">
      <h3>Add a named measure</h3>
      <NotSaved errors={errors} />
      <div className={styles.row}>
        {text('name', 'Name of the measure', undefined, { maxLength: OWN_MEASURE_BOUNDS.name })}
        {choice(
          'part',
          'Part',
          PARTS.map((part) => ({ key: part, words: part.replace('-', ' ') })),
          'Choose',
        )}
        {choice('kind', 'Kind', KINDS, 'Choose')}
        {choice('sides', 'Taken', SIDES, 'Choose')}
      </div>
      <div className={styles.row}>
        {text('lowMm', 'Plausible from, mm', 'The smallest that a body has.', { maxLength: 6, inputMode: 'decimal' })}
        {text('highMm', 'Plausible to, mm', 'A figure outside is asked about.', { maxLength: 6, inputMode: 'decimal' })}
        {text('tapeSdMm', 'Error of one reading, mm', 'Standard deviation.', { maxLength: 6, inputMode: 'decimal' })}
      </div>
      {text('definition', 'How it is taken', 'On one line: from where to where, how the person stands or sits.', {
        maxLength: OWN_MEASURE_BOUNDS.definition,
      })}
      {text('source', 'Where that is laid down', 'In your own words.', { maxLength: OWN_MEASURE_BOUNDS.source })}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Add the measure
        </button>
      </div>
    </form>
  );
}

type Choice = { readonly id: string; readonly part: string; readonly name: string };

/** A form of garment to be added; the measures it is made to are ticked part by part. */
export function OwnFormForm({ choices }: { choices: readonly Choice[] }) {
  const [{ errors, typed }, send, busy] = useActionState<OwnPartState, FormData>(addOwnFormAction, START);
  const { text, choice } = typedBoxes(typed ?? {}, errors, (box) => `form-${box}`);
  const ticked = (typed?.measures ?? '').split(' ');
  return (
    <form className="panel form" action={send} noValidate aria-label="Add a form of garment" key={typed ? 'typed' : 'start'}>
      <h3>Add a form of garment</h3>
      <NotSaved errors={errors} />
      <div className={styles.row}>
        {text('words', 'Name of the garment', undefined, { maxLength: OWN_FORM_BOUNDS.words })}
        {choice('ladders', 'Made to ladders, or to measures alone', asChoices(OWN_FORM_LADDERS), 'Choose')}
        {text('leadDays', 'Days to make and deliver', undefined, { maxLength: 4, inputMode: 'numeric' })}
        {text('lifeDays', 'Days of wear', undefined, { maxLength: 4, inputMode: 'numeric' })}
      </div>
      <fieldset className="field">
        <legend>Named measures it is made to</legend>
        {errors.measures && <span className="refusal">{errors.measures}</span>}
        {PARTS.map((part) => {
          const ofPart = choices.filter((one) => one.part === part);
          return ofPart.length === 0 ? null : (
            <details key={part} open={ofPart.some(({ id }) => ticked.includes(id))}>
              <summary>{`${part.replace('-', ' ')}, ${ofPart.length}`}</summary>
              <div className={styles.ticks}>
                {ofPart.map(({ id, name }) => (
                  <label className="choice" key={id}>
                    <input type="checkbox" name="measures" value={id} defaultChecked={ticked.includes(id)} />
                    {name}
                  </label>
                ))}
              </div>
            </details>
          );
        })}
      </fieldset>
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Add the form
        </button>
      </div>
    </form>
  );
}
