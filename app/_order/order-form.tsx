'use client';

import { useActionState, useState } from 'react';
import { asChoices, type BoxChoice, typedBoxes } from '@/app/_form/typed-boxes';
import { CoverEnds } from '@/app/_piece/cover-ends';
import type { LadderChoice } from '@/app/_piece/cut-ladders';
import { OPTION_ROWS, optionKey, type TypedOrderForm } from '@/lib/forms/read-order-form';
import { GARMENT_FORMS, GARMENT_OPTIONS, type OptionKind, type OwnForm } from '@/lib/garment-forms/garment-catalogue';
import { formOf } from '@/lib/garment-forms/own-form';
import { LONGEST_OF_ORDER, ORDER_REASONS } from '@/lib/record/order';
import { capitalized } from '@/lib/units/capitalized';
import type { BesideForm } from './ladder-beside';
import type { MissingByForm } from './missing-by-form';
import styles from './order-form.module.css';
import { type OrderFormState, saveOrderAction } from './save-order';

type Props = {
  readonly patientId: string;
  readonly orderId: string | null;
  readonly revision: number;
  readonly submissionId: string;
  readonly start: TypedOrderForm;
  readonly ladders: readonly LadderChoice[];
  /** What the engine proposes as room for the newest ladder, in words. */
  readonly roomWords: string;
  /** What making took of late, in words, by the form of garment. */
  readonly leadWords: Readonly<Record<string, string>>;
  /** Ladders as they are shown beside the form, by the key of their choice, with the room proposed before and without it. */
  readonly beside: readonly BesideForm[];
  /** Forms that the clinic added. */
  readonly ownForms: readonly OwnForm[];
  /** What the newest visit does not have of each form. */
  readonly missing: MissingByForm;
};

/** The form of an order that has not been sent. It posts without script; a refused form keeps every word typed. */
export function OrderForm({
  patientId,
  orderId,
  revision,
  submissionId,
  start,
  ladders,
  roomWords,
  leadWords,
  beside,
  ownForms,
  missing,
}: Props) {
  const [state, send, busy] = useActionState<OrderFormState, FormData>(saveOrderAction, { errors: {}, typed: null, notice: null });
  const typed = state.typed ?? start;
  const { text, choice } = typedBoxes(typed, state.errors);
  const ends = ladders.find((one) => one.key === typed.cutFrom)?.ends ?? ladders[0]?.ends ?? [];
  const [form, setForm] = useState(typed.form ?? '');
  const [cutFrom, setCutFrom] = useState(typed.cutFrom ?? '');
  const ladder = beside.find(({ key }) => key === cutFrom);
  const also = ladder?.further[form] ?? [];
  const drawn = ladder ? [ladder, ...beside.filter(({ key }) => also.includes(key))] : [];
  const own = ownForms.find(({ id }) => id === form);
  const byMeasures = formOf({ form, own })?.madeTo !== undefined;
  const refused = Object.keys(state.errors).length;
  return (
    <div className={ladder ? styles.withLadder : undefined}>
      <form
        className="panel form"
        action={send}
        noValidate
        onChange={(event) => {
          const box = event.target as unknown as HTMLSelectElement;
          if (box.name === 'form') setForm(box.value);
          if (box.name === 'cutFrom') setCutFrom(box.value);
        }}
      >
        {(state.notice || refused > 0) && (
          <p className="refused-box" role="alert">
            {state.notice ?? `Nothing is saved yet: ${refused === 1 ? 'one box needs' : `${refused} boxes need`} another look, below.`}
          </p>
        )}
        <input type="hidden" name="patientId" value={patientId} />
        <input type="hidden" name="orderId" value={orderId ?? ''} />
        <input type="hidden" name="revision" value={revision} />
        <input type="hidden" name="submissionId" value={submissionId} />
        <CoverEnds ends={ends} />
        <fieldset className="field">
          <legend>The piece</legend>
          <div className="two-columns">
            {choice('cutFrom', 'Made to the measurements of', ladders, 'Choose a ladder, or named measures')}
            {choice('form', 'Garment', formChoices(ownForms), 'Choose what it covers', missing[cutFrom]?.[form])}
            {!byMeasures && text('from', 'Covers from', 'A landmark, or a distance on the ladder.', { list: 'cover-ends' })}
            {!byMeasures && text('to', 'Covers to', 'A landmark, or a distance on the ladder.', { list: 'cover-ends' })}
            {text('quantity', 'Pieces', 'Two in rotation: one on, one in the wash.')}
            {text(
              'heldBack',
              'How many of them wait',
              'Held back: made only once another piece of this order has been fitted. Empty for none.',
            )}
            {choice('use', 'Worn', USES, 'Choose')}
            {text('maker', 'Maker', 'In your own words.', { maxLength: LONGEST_OF_ORDER.maker })}
            {text('colour', 'Colour', 'In your own words.', { maxLength: LONGEST_OF_ORDER.colour })}
          </div>
        </fieldset>
        <fieldset className="field">
          <legend>Fit</legend>
          <div className="two-columns">
            {text('reduction', 'Reduction, %')}
            {choice('convention', 'Reduction is counted as', CONVENTIONS, 'Choose', '20 % of one is 16.7 % of the other.')}
            {text(
              'allowance',
              'Room to let out',
              `Total width with its unit; empty for none, or for what one expansion panel holds. ${state.room ? '' : roomWords}`,
            )}
            <div className="field">
              <button type="submit" className="button" name="show" value="room" aria-disabled={busy}>
                Show the room for these figures
              </button>
              {state.room && (
                <p className="hint" role="status">
                  {state.room}
                </p>
              )}
            </div>
          </div>
        </fieldset>
        <fieldset className="field">
          <legend>Why and when</legend>
          <div className="two-columns">
            {choice('reasonCode', 'Why it is ordered', asChoices(ORDER_REASONS), 'Choose')}
            {text('neededBy', 'Needed by', 'Empty where no day was agreed.', { type: 'date' })}
            {text(
              'lifeDays',
              'Expected life, days',
              own ? `Counted from first wear. Empty: ${own.lifeDays}, as this form was added.` : 'Counted from first wear.',
            )}
            {text(
              'leadDays',
              'Making and delivery, days',
              own ? `Empty: ${own.leadDays}, as this form was added. ${leadWords[form] ?? ''}`.trim() : leadWords[form],
            )}
          </div>
        </fieldset>
        <fieldset className="field">
          <legend>Class, where one was prescribed</legend>
          <span className="hint">A class means nothing without its scheme and range: schemes differ. Leave all four empty for none.</span>
          <div className="four-columns">
            {text('scheme', 'Scheme')}
            {text('className', 'Class')}
            {text('lowMmHg', 'From, mmHg')}
            {text('highMmHg', 'To, mmHg')}
          </div>
        </fieldset>
        <fieldset className="field">
          <legend>Options</legend>
          <span className="hint">
            Closures, openings, linings, bands, joint inserts, silicone, pads, expansion panels: each with its place.
          </span>
          {optionRows(typed, state.errors).map((row) => (
            <div key={row} className="option-row">
              {choice(`option${row}Choice`, `Option ${row + 1}`, optionChoices(), 'none')}
              {text(`option${row}Place`, 'Place')}
              {text(`option${row}Width`, 'Width')}
            </div>
          ))}
        </fieldset>
        {text('note', 'Note for the maker', 'No name and no diagnosis: the sheet goes out with the reference only.')}
        <div className="actions">
          <button type="submit" className="button main" aria-disabled={busy}>
            {orderId ? 'Save the changes' : 'Keep as proposed'}
          </button>
          <a className="button" href={orderId ? `/patients/${patientId}/orders/${orderId}` : `/patients/${patientId}`}>
            Leave without saving
          </a>
        </div>
      </form>
      {ladder && (
        <aside aria-label={drawn.length > 1 ? 'The ladders it is made to' : 'The ladder it is made to'}>
          {drawn.map(({ shown, without }) => (state.room ? without : shown))}
        </aside>
      )}
    </div>
  );
}

const CONVENTIONS = [
  { key: 'C(1-r)', words: 'relaxed girth = girth × (1 − reduction)' },
  { key: 'C/(1+r)', words: 'relaxed girth = girth ÷ (1 + reduction)' },
];
const USES = [
  { key: 'day', words: 'by day' },
  { key: 'night', words: 'by night' },
  { key: 'other', words: 'other' },
];

/** The forms under what they are made to. */
function formChoices(ownForms: readonly OwnForm[]): BoxChoice[] {
  return [
    ...GARMENT_FORMS.map(({ id, words, limb, madeTo }) => ({ key: id, words, group: capitalized(madeTo ?? limb) })),
    ...ownForms.map(({ id, words, ladders }) => ({ key: id, words, group: `Your own, ${ladders}` })),
  ];
}

function optionChoices(): { key: string; words: string }[] {
  return (Object.keys(GARMENT_OPTIONS) as OptionKind[]).flatMap((kind) =>
    GARMENT_OPTIONS[kind].map((one) => ({ key: optionKey(kind, one), words: optionKey(kind, one) })),
  );
}

/** Filled rows and two empty ones, never more than there are. */
function optionRows(typed: TypedOrderForm, errors: Readonly<Record<string, string>>): number[] {
  const used = Array.from({ length: OPTION_ROWS }, (_, row) => row).filter((row) =>
    ['Choice', 'Place', 'Width'].some((box) => (typed[`option${row}${box}`] ?? '') !== '' || errors[`option${row}${box}`]),
  );
  const shown = Math.min(Math.max(-1, ...used) + 3, OPTION_ROWS);
  return Array.from({ length: shown }, (_, row) => row);
}
