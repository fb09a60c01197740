'use client';

import { asChoices } from '@/app/_shell/typed-boxes';
import { RETIRED_AS } from '@/lib/record/piece-life';
import { StepForm, type StepProps } from './step-form';

const KEPT_AS = [
  { key: 'rotation', words: 'in rotation' },
  { key: 'spare', words: 'kept as a spare' },
];

/** In turn with the others, or kept as a spare. */
export function KeepStep({ now, ...props }: StepProps & { now: 'rotation' | 'spare' }) {
  return (
    <StepForm
      {...props}
      step="keep"
      title={now === 'spare' ? 'Kept as a spare' : 'In rotation'}
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
