'use client';

import { useActionState } from 'react';
import { NotSaved } from '@/app/_form/not-saved';
import { asChoices, typedBoxes } from '@/app/_form/typed-boxes';
import { LIMBS, type LimbKind, placeInWords } from '@/lib/ladder/limb';
import { CLINIC_BOUNDS } from '@/lib/record/clinic-details';
import { type ClinicDetailsState, saveClinicDetailsAction } from './actions';

type Props = {
  /** How many states there were when the page was opened: a form over another one is refused. */
  readonly number: number;
  readonly start: Readonly<Record<string, string>>;
  readonly zones: readonly string[];
  /** What stands while the box of the emergency number is empty. */
  readonly proposedEmergency: string;
};

const LIMB_KINDS = Object.keys(LIMBS) as LimbKind[];
const DIRECTIONS = [
  { key: 'up', words: 'upward, to the trunk' },
  { key: 'down', words: 'downward, from the trunk' },
];
const zerosOf = (limb: LimbKind) => LIMBS[limb].landmarks.map((landmark) => ({ key: landmark, words: placeInWords(landmark) }));

const LENGTHS = [
  { key: 'in', words: 'inches and fractions' },
  { key: 'cm', words: 'centimetres' },
];
const MASSES = [
  { key: 'lb', words: 'pounds' },
  { key: 'kg', words: 'kilograms' },
];

/** Name and address as letters and order sheets head them; units and zone of what is typed from now on. */
export function ClinicDetailsForm({ number, start, zones, proposedEmergency }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<ClinicDetailsState, FormData>(saveClinicDetailsAction, {
    errors: {},
    typed: null,
  });
  const { text, words, choice } = typedBoxes(typed ?? start, errors);
  return (
    <form className="panel form" action={send} noValidate aria-label="Name, address, units" key={typed ? 'typed' : 'start'}>
      <input type="hidden" name="number" value={number} />
      <NotSaved errors={errors} />
      <div className="two-columns">
        {text('name', 'Name', undefined, { maxLength: CLINIC_BOUNDS.name })}
        {text('subtitle', 'Beside the name', 'What kind of clinic it is, in small letters.', { maxLength: CLINIC_BOUNDS.name })}
        {words('address', 'Address', 'Where pieces are delivered; stands on the sheet of an order.', CLINIC_BOUNDS.lines)}
        {text('phone', 'Telephone', undefined, { type: 'tel', maxLength: CLINIC_BOUNDS.phone })}
        {text('emergency', 'Emergency number', `On the pages that families take home. Empty: ${proposedEmergency}, by the time zone.`, {
          type: 'tel',
          maxLength: CLINIC_BOUNDS.phone,
        })}
        {choice('lengthUnit', 'Tapes in', LENGTHS, null)}
        {choice('massUnit', 'Weighs in', MASSES, null)}
        {choice('timeZone', 'Counts days in', asChoices(zones), null, 'Dates of work change with it from the next reading on.')}
      </div>
      <fieldset className="field">
        <legend>How a limb is measured that was never measured</legend>
        <span className="hint">
          A first visit begins so, later ones as the visit before. Left empty, the sheet asks: nobody else’s way is put in.
        </span>
        {LIMB_KINDS.map((limb) => (
          <div key={limb} className="four-columns">
            {choice(`${limb}Zero`, `Zero on the ${limb}`, zerosOf(limb), 'Not set')}
            {choice(`${limb}Direction`, `Direction, ${limb}`, DIRECTIONS, 'Not set')}
            {text(`${limb}Interval`, `Interval on the ${limb}`, undefined, { maxLength: CLINIC_BOUNDS.interval })}
            {choice(`${limb}Unit`, `Tape on the ${limb}`, LENGTHS, 'As the clinic tapes')}
          </div>
        ))}
        {text('posture', 'Posture', 'Such as lying or standing.', { maxLength: CLINIC_BOUNDS.posture })}
      </fieldset>
      {text('reason', 'Why it is changed', 'In a few words; for the history.', { maxLength: 200 })}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Save
        </button>
      </div>
    </form>
  );
}
