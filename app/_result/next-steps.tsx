import { type CalendarDay, showWeekday } from '@/lib/units/calendar-day';

type Props = {
  readonly patientId: string;
  /** The day of the next visit, where one falls due. */
  readonly next: CalendarDay | null;
  /** Whether a piece is on record already. */
  readonly hasPieces: boolean;
  readonly mayWrite: boolean;
};

/** What comes after a result that proposes nothing: when the next visit is, and where an order, a piece that is worn already or a booking is made. */
export function NextSteps({ patientId, next, hasPieces, mayWrite }: Props) {
  const own = `/patients/${patientId}`;
  return (
    <section aria-labelledby="next-steps">
      <h2 id="next-steps" className="section-head">
        Next
      </h2>
      <p>{next ? `Nothing else is proposed. The next visit falls due ${showWeekday(next)}.` : 'Nothing else is proposed.'}</p>
      {mayWrite && (
        <div className="actions">
          <a className="button" href={`${own}/orders/new`} data-soft="">
            Order from these measurements
          </a>
          {!hasPieces && (
            <a className="button" href={`${own}/pieces/new`} data-soft="">
              Add a piece that is worn already
            </a>
          )}
          <a className="button" href={`${own}/bookings#form`} data-soft="">
            Book the next visit
          </a>
        </div>
      )}
    </section>
  );
}
