import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { WithdrawEvent } from './withdraw-event';

type Noted = { readonly eventId: string; readonly day: CalendarDay; readonly kind: string; readonly words: string };

/** The events noted for a patient, each with the way to take a mistaken one back. */
export function NotedEvents({ events, patientId, mayWrite }: { events: readonly Noted[]; patientId: string; mayWrite: boolean }) {
  if (events.length === 0) return null;
  return (
    <ul className="plain-list" aria-label="Events noted">
      {events.map(({ eventId, day, kind, words }) => (
        <li key={eventId}>
          {`${showDay(day)}: ${kind}, ${words}`}
          {mayWrite && <WithdrawEvent eventId={eventId} patientId={patientId} />}
        </li>
      ))}
    </ul>
  );
}
