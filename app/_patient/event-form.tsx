'use client';

import { useActionState } from 'react';
import { addEventAction, type EventState } from '@/app/_patient/actions';
import styles from './patient.module.css';

type Props = { readonly patientId: string; readonly submissionId: string; readonly today: string };

/** Notes an operation, infection or new course of therapy: it is marked on the charts, and trends start anew from it. */
export function EventForm({ patientId, submissionId, today }: Props) {
  const [state, add, busy] = useActionState<EventState, FormData>(addEventAction, null);
  return (
    <details className="as-table">
      <summary>Note an event</summary>
      <form action={add} className={styles.eventForm}>
        <input type="hidden" name="patientId" value={patientId} />
        <input type="hidden" name="submissionId" value={submissionId} />
        <label>
          Day
          <input type="date" name="day" max={today} required />
        </label>
        <label>
          Kind
          <select name="kind" defaultValue="operation">
            <option value="operation">operation</option>
            <option value="infection">infection</option>
            <option value="therapy">new course of therapy</option>
            <option value="other">other</option>
          </select>
        </label>
        <label>
          What happened
          <input type="text" name="words" maxLength={80} defaultValue={state?.words} required />
        </label>
        <button className="button" type="submit" disabled={busy}>
          Note it
        </button>
        <p className="secondary">Trends start anew from the day of an event.</p>
        <p className="refusal" role="status">
          {state?.refusal}
        </p>
      </form>
    </details>
  );
}
