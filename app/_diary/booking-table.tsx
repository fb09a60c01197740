import type { ReactNode } from 'react';
import { ColumnHeads } from '@/app/_shell/column-heads';
import type { BookingStanding, KeptBooking } from '@/lib/diary/booking';
import { showDay } from '@/lib/units/calendar-day';
import styles from './diary.module.css';

type Shown = { readonly booking: KeptBooking & { readonly number: number }; readonly how: BookingStanding };

type Props = {
  readonly bookings: readonly Shown[];
  readonly patientId: string;
  readonly mayWrite: boolean;
  /** The form that says what became of one. */
  readonly change: (shown: Shown) => ReactNode;
};

const STANDING: Readonly<Record<BookingStanding, string>> = {
  kept: 'kept',
  ahead: 'booked',
  'not said': 'booked; nobody has said whether it was kept',
  missed: 'missed',
  'cancelled by the clinic': 'cancelled by the clinic',
  'cancelled by the person': 'cancelled by the person',
};

/** Booked visits with what became of each, and the ways to move one or to say what became of it. */
export function BookingTable({ bookings, patientId, mayWrite, change }: Props) {
  return (
    <div className="table-frame">
      <table>
        <thead>
          <tr>
            <ColumnHeads of={['Day', 'Time', 'What for', 'State']} />
            {mayWrite && <th scope="col">Change</th>}
          </tr>
        </thead>
        <tbody>
          {bookings.map((shown) => {
            const { booking, how } = shown;
            const open = how === 'ahead' || how === 'not said';
            return (
              <tr key={booking.bookingId}>
                <th scope="row">{showDay(booking.day)}</th>
                <td>{booking.time ?? '–'}</td>
                <td>{booking.what ?? '–'}</td>
                <td className={styles.state}>{STANDING[how]}</td>
                {mayWrite && (
                  <td>
                    {open && (
                      <a
                        href={`/patients/${patientId}/bookings?move=${booking.bookingId}#form`}
                        aria-label={`Move the visit of ${showDay(booking.day)}`}
                      >
                        Move
                      </a>
                    )}
                    {how !== 'kept' && (
                      <details>
                        <summary aria-label={`What became of the visit of ${showDay(booking.day)}`}>
                          {open ? 'Missed or cancelled' : 'Correct'}
                        </summary>
                        {change(shown)}
                      </details>
                    )}
                  </td>
                )}
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
