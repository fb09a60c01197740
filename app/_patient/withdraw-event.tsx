'use client';

import { useActionState } from 'react';
import { type EventState, withdrawEventAction } from '@/app/_patient/actions';
import styles from './patient.module.css';

/** The way to take a mistaken event back, with why. */
export function WithdrawEvent({ eventId, patientId }: { eventId: string; patientId: string }) {
  const [state, withdraw, busy] = useActionState<EventState, FormData>(withdrawEventAction, null);
  return (
    <details className="as-table">
      <summary>It was a mistake</summary>
      <form action={withdraw} className={styles.eventForm}>
        <input type="hidden" name="patientId" value={patientId} />
        <input type="hidden" name="eventId" value={eventId} />
        <label>
          Why
          <input type="text" name="reason" maxLength={80} defaultValue={state?.words} required />
        </label>
        <button className="button" type="submit" disabled={busy}>
          Take it back
        </button>
        <p className="secondary">It stays readable in the history; trends run through its day again.</p>
        <p className="refusal" role="status">
          {state?.refusal}
        </p>
      </form>
    </details>
  );
}
