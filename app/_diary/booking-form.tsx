'use client';

import { useActionState } from 'react';
import { typedBoxes } from '@/app/_form/typed-boxes';
import { LONGEST_BOOKING } from '@/lib/diary/booking';
import { type BookingFormState, bookAction } from './actions';
import styles from './diary.module.css';

type Props = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly today: string;
  readonly start: Readonly<Record<string, string>>;
  /** The booking that is moved, with the number of its state; null for a new one. */
  readonly moved: { readonly bookingId: string; readonly number: number } | null;
};

const NOTHING: BookingFormState = { errors: {}, asks: [], typed: null };

/** Books a visit or moves one. A closed or full day is asked about and booked all the same where that is said. */
export function BookingForm({ patientId, submissionId, today, start, moved }: Props) {
  const [{ errors, asks, typed }, send, busy] = useActionState<BookingFormState, FormData>(bookAction, NOTHING);
  const { text } = typedBoxes(typed ?? start, errors);
  return (
    <form
      className="panel form"
      action={send}
      noValidate
      aria-label={moved ? 'Move a booking' : 'Book a visit'}
      key={typed ? 'typed' : 'start'}
    >
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      {moved && <input type="hidden" name="bookingId" value={moved.bookingId} />}
      {moved && <input type="hidden" name="number" value={moved.number} />}
      <p className="refusal" role="alert">
        {errors.form ?? (Object.keys(errors).length > 0 ? 'Nothing was booked yet. Look at the marked boxes.' : '')}
      </p>
      <div className={styles.grid}>
        {text('day', 'Day', undefined, { type: 'date', min: today, required: true })}
        {text('time', 'Time', 'Empty: some time of that day.', { type: 'time' })}
        {text('what', 'What for', undefined, { maxLength: LONGEST_BOOKING })}
      </div>
      {asks.length > 0 && (
        <div className={styles.asks} role="alert">
          {asks.map((one) => (
            <p key={one}>{one}</p>
          ))}
          <input type="hidden" name="asked" value={asks.join('\n')} />
          <label className="choice">
            <input type="checkbox" name="sure" value="yes" />
            Book it all the same
          </label>
        </div>
      )}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          {moved ? 'Move it' : 'Book it'}
        </button>
      </div>
    </form>
  );
}
