'use client';

import { asChoices } from '@/app/_form/typed-boxes';
import { RETIRED_AS } from '@/lib/record/piece-life';
import { StepForm, type StepProps } from './step-form';

const KEPT_AS = [
  { key: 'rotation', words: 'in rotation' },
  { key: 'spare', words: 'kept as a spare' },
];

/** A piece that was held back is made after all; what stands against it is said, and answered in words. */
export function ReleaseStep({ against, expected, ...props }: StepProps & { against: readonly string[]; expected: string }) {
  return (
    <StepForm {...props} step="release" title="Held back until the first fit" button="Release it: it is made now" main start={{ expected }}>
      {({ text, day }) => (
        <>
          {against.length > 0 && (
            <ul>
              {against.map((one) => (
                <li key={one}>{one}</li>
              ))}
            </ul>
          )}
          {text(
            'words',
            against.length > 0 ? 'Why it is made all the same' : 'In a few words, if anything is to be said',
            'It is made to the figures that were sent. For other figures take it out of use and write a new order.',
            { maxLength: 200 },
          )}
          <div className="two-columns">
            {day('Released on')}
            {text('expected', 'Expected on', 'From the lead time; change it when the maker named a day.', { type: 'date' })}
          </div>
        </>
      )}
    </StepForm>
  );
}

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
