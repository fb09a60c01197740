'use client';

import { useActionState } from 'react';
import { FieldGroup } from '@/app/_form/field';
import { NotSaved } from '@/app/_form/not-saved';
import { typedBoxes } from '@/app/_form/typed-boxes';
import { DIARY_BOUNDS, WEEKDAYS } from '@/lib/diary/diary';
import { LONGEST_REASON } from '@/lib/forms/read-reason';
import { type DiaryFormState, saveDiaryAction } from './actions';
import styles from './clinic-diary.module.css';

/** Weekdays from Monday on, as a week is read. */
const WEEK = [1, 2, 3, 4, 5, 6, 0] as const;

type Props = {
  readonly start: Readonly<Record<string, string>>;
  readonly spans: number;
  /** How many states there were when the page was opened: a form over another one is refused. */
  readonly number: number;
};

/** When the clinic works: weekdays, closed days, visits a day. */
export function DiaryForm({ start, spans, number }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<DiaryFormState, FormData>(saveDiaryAction, { errors: {}, typed: null });
  const boxes = typed ?? start;
  const { text } = typedBoxes(boxes, errors);
  return (
    <form className="panel form" action={send} noValidate aria-label="Working days" key={typed ? 'typed' : 'start'}>
      <input type="hidden" name="number" value={number} />
      <NotSaved errors={errors} />
      <FieldGroup id="weekdays" label="The clinic works on" refusal={errors.weekdays}>
        {WEEK.map((weekday) => (
          <label key={weekday} className="choice">
            <input type="checkbox" name={`weekday${weekday}`} value="yes" defaultChecked={boxes[`weekday${weekday}`] === 'yes'} />
            {WEEKDAYS[weekday]}
          </label>
        ))}
      </FieldGroup>
      <h2>Closed</h2>
      {Array.from({ length: Math.min(spans + 3, DIARY_BOUNDS.spans) }, (_, place) => place).map((place) => (
        <div key={place} className={styles.span}>
          {text(`from${place}`, `Closed from, ${place + 1}`, undefined, { type: 'date' })}
          {text(`until${place}`, `to, ${place + 1}`, undefined, { type: 'date' })}
          {text(`why${place}`, `Why, ${place + 1}`, undefined, { maxLength: DIARY_BOUNDS.why })}
        </div>
      ))}
      <h2>Visits</h2>
      {text('capacity', 'Visits a day', 'Booking more is asked about, never refused. Empty: no limit.', { inputMode: 'numeric' })}
      {text('reason', 'Why it is changed', 'Stands in the history.', { maxLength: LONGEST_REASON.other })}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Save
        </button>
      </div>
    </form>
  );
}
