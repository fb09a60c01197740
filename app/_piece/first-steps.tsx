'use client';

import { Fragment } from 'react';
import type { ShownHold } from '@/app/_cautions/read-hand-over';
import { asChoices } from '@/app/_form/typed-boxes';
import type { WearInBoxes } from '@/lib/garments/wear-in-start';
import { REMAKE_REASONS, ZONE_FITS } from '@/lib/record/piece-life';
import { capitalized } from '@/lib/units/capitalized';
import { type Boxes, StepForm, type StepProps } from './step-form';

/** What is usually taught at a hand-over. Source: common practice; local leaflets differ on washing and on nights, so local protocol decides. */
const TEACHING = [
  'putting on and taking off, watched',
  'hours of the first days',
  'washing and drying',
  'two pieces in turn',
  'when to take it off and call: numb, blue or white, blister, pain',
];

type Held = StepProps & { readonly hold: ShownHold };

/** The piece came. */
export function DeliveredStep(props: Held) {
  return (
    <StepForm {...props} step="delivered" title="It is awaited" button="It came" main>
      {({ day }) => day('Delivered on')}
    </StepForm>
  );
}

/** The first fit: a verdict for each zone, what follows, and the wear-in when it is kept. */
export function FirstFitStep({ zones, wearIn, worn, ...props }: Held & { zones: readonly string[]; wearIn: WearInBoxes; worn: boolean }) {
  return (
    <StepForm {...props} step="first-fit" title="First fit" button="Record the first fit" main start={{ wornToday: 'yes', ...wearIn }}>
      {({ text, choice, tick, day }) => (
        <>
          <p className="hint">
            Look: is it as ordered, does it cover the area, no fold away from bent joints, no edge that cuts in, colour and feeling good?
          </p>
          {tick('allGood', 'Fit', 'Good at every place for which nothing else is chosen below')}
          {day('Checked on')}
          <div className="four-columns">
            {zones.map((zone) => (
              <Fragment key={zone}>{choice(`zone/${zone}`, capitalized(zone), asChoices(ZONE_FITS), 'Choose')}</Fragment>
            ))}
          </div>
          <div className="two-columns">
            {choice('outcome', 'What follows', asChoices(['keep', 'alter', 'remake']), 'Choose')}
            {choice('reason', 'Reason, when it goes back', asChoices(REMAKE_REASONS), 'Choose')}
          </div>
          {text('words', 'In a few words')}
          {tick('taught', 'Teaching', 'Putting on, taking off and when to call were shown and watched')}
          <p className="hint">
            {`Usually taught: ${TEACHING.join('; ')}. As your local protocol has it; without the tick it stands as not recorded.`}
          </p>
          {tick('anew', 'For a remake', 'Go on to a new order with changed figures')}
          {!worn && (
            <>
              {tick('wornToday', 'When it is kept', 'It is worn from this day on')}
              <WearInFields text={text} />
            </>
          )}
        </>
      )}
    </StepForm>
  );
}

function WearInFields({ text }: Pick<Boxes, 'text'>) {
  return (
    <fieldset className="field">
      <legend>Wear-in</legend>
      <span className="hint">As the prescriber and the clinic have it. A blister or open skin: stop and call.</span>
      <div className="four-columns">
        {text('firstHours', 'Hours on the first day')}
        {text('fullHours', 'Hours a day in the end', 'Open where neither the order nor an earlier piece says them.')}
        {text('wearInDays', 'Days to get there')}
        {text('callAfter', 'Early call after, days')}
      </div>
    </fieldset>
  );
}

/** First wear, when it was not on the day of the first fit. */
export function WornStep({ wearIn, ...props }: Held & { wearIn: WearInBoxes }) {
  return (
    <StepForm {...props} step="worn" title="First worn" button="Record first wear" start={wearIn}>
      {({ text, day }) => (
        <>
          {day('First worn on', 'Its age counts from this day.')}
          <WearInFields text={text} />
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
