'use client';

import { Fragment, type ReactNode, useActionState } from 'react';
import { asChoices, type TypedBoxes, typedBoxes } from '@/app/_shell/typed-boxes';
import { REMAKE_REASONS, RETIRED_AS, ZONE_FITS } from '@/lib/record/piece-life';
import type { PieceStep } from '@/lib/record/read-piece-step';
import { capital } from '@/lib/units/capital';
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

type Boxes = TypedBoxes & { readonly day: (label: string, hint?: string) => ReactNode };

type StepFormProps = StepProps & {
  readonly step: PieceStep;
  readonly title: string;
  readonly button: string;
  readonly main?: boolean;
  /** What stands in the boxes at first, beside today in the box of the day. */
  readonly start?: Readonly<Record<string, string>>;
  readonly children: (boxes: Boxes) => ReactNode;
};

/** The form of one step: its boxes come from the step, what was refused stands beside them. */
function StepForm({ step, title, button, main = false, start = {}, children, ...props }: StepFormProps) {
  const [state, send, busy] = useActionState<PieceStepState, FormData>(stepPieceAction, { errors: {}, typed: null });
  const typed = state.typed ?? { day: props.today, ...start };
  const plain = typedBoxes(typed, state.errors, (box) => `${step}-${box.replaceAll(/[^a-z0-9]+/gi, '-')}`);
  const boxes: Boxes = { ...plain, day: (label, hint) => plain.text('day', label, hint, { type: 'date', max: props.today }) };
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
      {({ day }) => day('Delivered on')}
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
    <StepForm {...props} step="first-fit" title="First fit" button="Record the first fit" main start={{ wornToday: 'yes', ...wearIn }}>
      {({ text, choice, tick, day }) => (
        <>
          <p className="hint">
            Look: is it as ordered, does it cover the area, no fold away from bent joints, no edge that cuts in, colour and feeling good?
          </p>
          {day('Checked on')}
          <div className="four-columns">
            {zones.map((zone) => (
              <Fragment key={zone}>{choice(`zone/${zone}`, capital(zone), asChoices(ZONE_FITS), 'Choose')}</Fragment>
            ))}
          </div>
          <div className="two-columns">
            {choice('outcome', 'What follows', asChoices(['keep', 'alter', 'remake']), 'Choose')}
            {choice('reason', 'Reason, when it goes back', asChoices(REMAKE_REASONS), 'Choose')}
          </div>
          {text('words', 'In a few words')}
          {tick('taught', 'Teaching', 'Putting on, taking off and when to call were shown and watched')}
          {tick('anew', 'For a remake', 'Go on to a new order with changed figures')}
          {!worn && (
            <>
              {tick('wornToday', 'When it is kept', 'It is worn from this day on')}
              <WearInBoxes text={text} />
            </>
          )}
        </>
      )}
    </StepForm>
  );
}

function WearInBoxes({ text }: Pick<Boxes, 'text'>) {
  return (
    <fieldset className="field">
      <legend>Wear-in</legend>
      <span className="hint">As the prescriber and the clinic have it. A blister or open skin: stop and call.</span>
      <div className="four-columns">
        {text('firstHours', 'Hours on the first day')}
        {text('fullHours', 'Hours a day in the end')}
        {text('wearInDays', 'Days to get there')}
        {text('callAfter', 'Early call after, days')}
      </div>
    </fieldset>
  );
}

/** First wear, when it was not on the day of the first fit. */
export function WornStep({ wearIn, ...props }: StepProps & { wearIn: WearInStart }) {
  return (
    <StepForm {...props} step="worn" title="First worn" button="Record first wear" start={wearIn}>
      {({ text, day }) => (
        <>
          {day('First worn on', 'Its age counts from this day.')}
          <WearInBoxes text={text} />
        </>
      )}
    </StepForm>
  );
}

/** The early call after first wear. */
export function CalledStep(props: StepProps) {
  return (
    <StepForm {...props} step="called" title="Early call" button="Record the call" main>
      {({ text, day }) => (
        <>
          {day('Called on', 'Skin, fit, hours worn, pain or itch, putting on.')}
          {text('words', 'What was said')}
        </>
      )}
    </StepForm>
  );
}

const KEPT_AS = [
  { key: 'rotation', words: 'worn in turn' },
  { key: 'spare', words: 'kept as a spare' },
];

/** In turn with the others, or kept as a spare. */
export function KeepStep({ now, ...props }: StepProps & { now: 'rotation' | 'spare' }) {
  return (
    <StepForm
      {...props}
      step="keep"
      title={now === 'spare' ? 'Kept as a spare' : 'Worn in turn'}
      button="Save"
      start={{ as: now === 'spare' ? 'rotation' : 'spare' }}
    >
      {({ choice, day }) => (
        <div className="two-columns">
          {choice('as', 'From now on', KEPT_AS, 'Choose')}
          {day('From')}
        </div>
      )}
    </StepForm>
  );
}

/** Room let out of the piece. */
export function LetOutStep({ left, ...props }: StepProps & { left: string }) {
  return (
    <StepForm {...props} step="let-out" title="Let out" button="Record the let-out">
      {({ text, day }) => (
        <>
          <div className="two-columns">
            {text('width', 'Width let out, in total', `With its unit. Room left: ${left}.`)}
            {day('On')}
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
      {({ text, day }) => (
        <>
          {text('words', 'What was altered')}
          {day('On')}
        </>
      )}
    </StepForm>
  );
}

/** Out of use, with a coded reason. */
export function RetireStep(props: StepProps) {
  return (
    <StepForm {...props} step="retire" title="Take out of use" button="Take it out of use">
      {({ text, choice, day }) => (
        <>
          <div className="two-columns">
            {choice('as', 'Reason', asChoices(RETIRED_AS), 'Choose')}
            {day('On')}
          </div>
          {text('words', 'In a few words')}
        </>
      )}
    </StepForm>
  );
}
