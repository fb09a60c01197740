'use client';

import { Fragment, type ReactNode, useActionState } from 'react';
import { Field } from '@/app/_shell/field';
import { REMAKE_REASONS, RETIRED_AS, ZONE_FITS } from '@/lib/record/piece-life';
import type { PieceStep } from '@/lib/record/read-piece-step';
import { type PieceStepState, stepPieceAction } from './step-piece';

export type StepProps = {
  readonly patientId: string;
  readonly pieceId: string;
  readonly revision: number;
  readonly submissionId: string;
  readonly today: string;
};

/** The clinic's wear-in in figures, as the boxes start. */
export type WearInStart = {
  readonly firstHours: string;
  readonly fullHours: string;
  readonly wearInDays: string;
  readonly callAfter: string;
};

type Boxes = {
  readonly text: (box: string, label: string, hint?: string, type?: string, start?: string) => ReactNode;
  readonly choice: (box: string, label: string, choices: readonly string[], start?: string) => ReactNode;
  readonly tick: (box: string, label: string, words: string, start: boolean) => ReactNode;
};

/** The form of one step: its boxes come from the step, what was refused stands beside them. */
function StepForm({
  step,
  title,
  button,
  main = false,
  children,
  ...props
}: StepProps & { step: PieceStep; title: string; button: string; main?: boolean; children: (boxes: Boxes) => ReactNode }) {
  const [state, send, busy] = useActionState<PieceStepState, FormData>(stepPieceAction, { errors: {}, typed: null });
  const typed = state.typed;
  const idOf = (box: string) => `${step}-${box.replaceAll(/[^a-z0-9]+/gi, '-')}`;
  const boxes: Boxes = {
    text: (box, label, hint, type = 'text', start = '') => (
      <Field id={idOf(box)} label={label} hint={hint} refusal={state.errors[box]}>
        {(wiring) => (
          <input
            {...wiring}
            name={box}
            type={type}
            defaultValue={typed?.[box] ?? start}
            autoComplete="off"
            max={type === 'date' ? props.today : undefined}
          />
        )}
      </Field>
    ),
    choice: (box, label, choices, start = '') => (
      <Field id={idOf(box)} label={label} refusal={state.errors[box]}>
        {(wiring) => (
          <select {...wiring} name={box} key={typed?.[box]} defaultValue={typed?.[box] ?? start}>
            <option value="">Choose</option>
            {choices.map((one) => (
              <option key={one} value={one}>
                {one}
              </option>
            ))}
          </select>
        )}
      </Field>
    ),
    tick: (box, label, words, start) => (
      <Field id={idOf(box)} label={label} refusal={state.errors[box]}>
        {(wiring) => (
          <label className="choice">
            <input {...wiring} name={box} type="checkbox" value="yes" defaultChecked={typed ? typed[box] === 'yes' : start} />
            {words}
          </label>
        )}
      </Field>
    ),
  };
  return (
    <form className="panel form" action={send} noValidate aria-label={title}>
      <h2>{title}</h2>
      {Object.keys(state.errors).length > 0 && (
        <p className="refused-box" role="alert">
          {state.errors.form ?? 'Nothing is saved yet: look at the boxes below.'}
        </p>
      )}
      {Object.entries({ ...props, step }).map(
        ([name, value]) => name !== 'today' && <input key={name} type="hidden" name={name} value={value} />,
      )}
      {children(boxes)}
      <div className="actions">
        <button type="submit" className={main ? 'button main' : 'button'} aria-disabled={busy}>
          {button}
        </button>
      </div>
    </form>
  );
}

/** The piece came. */
export function DeliveredStep(props: StepProps) {
  return (
    <StepForm {...props} step="delivered" title="It is awaited" button="It came" main>
      {({ text }) => text('day', 'Delivered on', undefined, 'date', props.today)}
    </StepForm>
  );
}

/** The first fit: a verdict for each zone, what follows, and the wear-in when it is kept. */
export function FirstFitStep({
  zones,
  wearIn,
  worn,
  ...props
}: StepProps & { zones: readonly string[]; wearIn: WearInStart; worn: boolean }) {
  return (
    <StepForm {...props} step="first-fit" title="First fit" button="Record the first fit" main>
      {({ text, choice, tick }) => (
        <>
          {text(
            'day',
            'Checked on',
            'As ordered? Covers the area? No fold away from bent joints, no edge that cuts in? Colour and feeling?',
            'date',
            props.today,
          )}
          <div className="four-columns">
            {zones.map((zone) => (
              <Fragment key={zone}>{choice(`zone/${zone}`, `${zone[0]?.toUpperCase()}${zone.slice(1)}`, ZONE_FITS)}</Fragment>
            ))}
          </div>
          <div className="two-columns">
            {choice('outcome', 'What follows', ['keep', 'alter', 'remake'])}
            {choice('reason', 'Reason, when it goes back', REMAKE_REASONS)}
          </div>
          {text('words', 'In a few words')}
          {tick('taught', 'Teaching', 'Putting on, taking off and when to call were shown and watched', false)}
          {tick('anew', 'For a remake', 'Go on to a new order with changed figures', false)}
          {!worn && (
            <>
              {tick('wornToday', 'When it is kept', 'It is worn from this day on', true)}
              <WearInBoxes text={text} start={wearIn} />
            </>
          )}
        </>
      )}
    </StepForm>
  );
}

function WearInBoxes({ text, start }: { text: Boxes['text']; start: WearInStart }) {
  return (
    <fieldset className="field">
      <legend>Wear-in</legend>
      <span className="hint">As the prescriber and the clinic have it. A blister or open skin: stop and call.</span>
      <div className="four-columns">
        {text('firstHours', 'Hours on the first day', undefined, 'text', start.firstHours)}
        {text('fullHours', 'Hours a day in the end', undefined, 'text', start.fullHours)}
        {text('wearInDays', 'Days to get there', undefined, 'text', start.wearInDays)}
        {text('callAfter', 'Early call after, days', undefined, 'text', start.callAfter)}
      </div>
    </fieldset>
  );
}

/** First wear, when it was not on the day of the first fit. */
export function WornStep({ wearIn, ...props }: StepProps & { wearIn: WearInStart }) {
  return (
    <StepForm {...props} step="worn" title="First worn" button="Record first wear">
      {({ text }) => (
        <>
          {text('day', 'First worn on', 'Its age counts from this day.', 'date', props.today)}
          <WearInBoxes text={text} start={wearIn} />
        </>
      )}
    </StepForm>
  );
}

/** The early call after first wear. */
export function CalledStep(props: StepProps) {
  return (
    <StepForm {...props} step="called" title="Early call" button="Record the call" main>
      {({ text }) => (
        <>
          {text('day', 'Called on', 'Skin, fit, hours worn, pain or itch, putting on.', 'date', props.today)}
          {text('words', 'What was said')}
        </>
      )}
    </StepForm>
  );
}

/** In turn with the others, or kept as a spare. */
export function KeepStep({ now, ...props }: StepProps & { now: 'rotation' | 'spare' }) {
  return (
    <StepForm {...props} step="keep" title={now === 'spare' ? 'Kept as a spare' : 'Worn in turn'} button="Save">
      {({ text, choice }) => (
        <div className="two-columns">
          {choice('as', 'From now on', ['rotation', 'spare'], now === 'spare' ? 'rotation' : 'spare')}
          {text('day', 'From', undefined, 'date', props.today)}
        </div>
      )}
    </StepForm>
  );
}

/** Room let out of the piece. */
export function LetOutStep({ left, ...props }: StepProps & { left: string }) {
  return (
    <StepForm {...props} step="let-out" title="Let out" button="Record the let-out">
      {({ text }) => (
        <>
          <div className="two-columns">
            {text('width', 'Width let out, in total', `With its unit. Room left: ${left}.`)}
            {text('day', 'On', undefined, 'date', props.today)}
          </div>
          {text('words', 'Where, in a few words')}
        </>
      )}
    </StepForm>
  );
}

/** Another alteration of a piece in use. */
export function AlteredStep(props: StepProps) {
  return (
    <StepForm {...props} step="altered" title="Altered" button="Record the alteration">
      {({ text }) => (
        <>
          {text('words', 'What was altered')}
          {text('day', 'On', undefined, 'date', props.today)}
        </>
      )}
    </StepForm>
  );
}

/** Out of use, with a coded reason. */
export function RetireStep(props: StepProps) {
  return (
    <StepForm {...props} step="retire" title="Take out of use" button="Take it out of use">
      {({ text, choice }) => (
        <>
          <div className="two-columns">
            {choice('as', 'Reason', RETIRED_AS)}
            {text('day', 'On', undefined, 'date', props.today)}
          </div>
          {text('words', 'In a few words')}
        </>
      )}
    </StepForm>
  );
}
