'use client';

import { useActionState } from 'react';
import { type EventState, withdrawEventAction } from '@/app/patients/[patientId]/actions';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';

type Noted = { readonly eventId: string; readonly day: CalendarDay; readonly kind: string; readonly words: string };

/** The events noted for a patient, each with the way to take a mistaken one back. */
export function NotedEvents({ events, patientId, mayWrite }: { events: readonly Noted[]; patientId: string; mayWrite: boolean }) {
  if (events.length === 0) return null;
  return (
    <ul className="plain-list" aria-label="Events noted">
      {events.map(({ eventId, day, kind, words }) => (
        <li key={eventId}>
          {`${showDay(day)}: ${kind}, ${words}`}
          {mayWrite && <Withdraw eventId={eventId} patientId={patientId} />}
        </li>
      ))}
    </ul>
  );
}

function Withdraw({ eventId, patientId }: { eventId: string; patientId: string }) {
  const [state, withdraw, busy] = useActionState<EventState, FormData>(withdrawEventAction, null);
  return (
    <details className="as-table">
      <summary>It was a mistake</summary>
      <form action={withdraw} className="event-form">
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
