'use client';

import { useActionState } from 'react';
import { type BookingFormState, changeBookingAction } from './actions';

type Props = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly bookingId: string;
  readonly number: number;
  /** Which visit it is, in words: every form of the page says its own. */
  readonly booked: string;
  readonly choices: readonly string[];
};

const NOTHING: BookingFormState = { errors: {}, asks: [], typed: null };

/** What became of one booked visit. A refused form keeps what was typed; the select is told by its key, as in `typedBoxes`. */
export function BecameForm({ patientId, submissionId, bookingId, number, booked, choices }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<BookingFormState, FormData>(changeBookingAction, NOTHING);
  return (
    <form action={send} className="answer-form" key={typed ? 'typed' : 'start'} aria-label={`What became of the visit ${booked}`}>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <input type="hidden" name="bookingId" value={bookingId} />
      <input type="hidden" name="number" value={number} />
      <label>
        What became of it
        <select name="state" key={typed?.state} defaultValue={typed?.state ?? ''} required>
          <option value="" disabled>
            Choose one
          </option>
          {choices.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </select>
      </label>
      <label>
        Why
        <input type="text" name="reason" maxLength={200} defaultValue={typed?.reason ?? ''} />
      </label>
      <button className="button" type="submit" aria-disabled={busy}>
        Note it
      </button>
      <p className="refusal" role="status">
        {errors.form ?? errors.state ?? errors.reason ?? ''}
      </p>
    </form>
  );
}
