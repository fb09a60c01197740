import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { BecameForm } from '@/app/_diary/became-form';
import { BookingForm } from '@/app/_diary/booking-form';
import { BookingTable } from '@/app/_diary/booking-table';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { dayAndTime } from '@/app/_shell/day-and-time';
import { notedHistory } from '@/db/patients/noted';
import { restsOn } from '@/lib/course/phases';
import { BOOKING_STATES, bookingInWords, bookingStanding } from '@/lib/diary/booking';
import { BOOKING } from '@/lib/diary/booking-schema';
import { workingDayBefore } from '@/lib/diary/diary';
import { ringWords } from '@/lib/record/work-facts';

export const metadata: Metadata = { title: 'Bookings' };

type Asked = { params: Promise<{ patientId: string }>; searchParams: Promise<{ move?: string; day?: string }> };

/** Booked visits of a patient: what is ahead, what became of each, and the form that books or moves one. */
export default async function BookingsPage({ params, searchParams }: Asked) {
  const [{ patientId }, { move = '', day: asked = '' }] = [await params, await searchParams];
  const therapist = await requireTherapist(`/patients/${patientId}/bookings`);
  const { record, clinic, today, diary, dates } = await loadPatient(therapist, patientId);
  const mayWrite = therapist.role !== 'read-only';
  const history = await notedHistory(therapist, patientId, 'booking');
  const clock = dayAndTime(clinic.timeZone);
  const visitDays = new Set(record.visits.map(({ day }) => day));
  const standing = record.bookings.map((booking) => ({ booking, how: bookingStanding(booking, visitDays, today) }));
  const moved = standing.find(({ booking, how }) => booking.bookingId === move && (how === 'ahead' || how === 'not said'))?.booking;
  const due = dates.find(({ kind }) => kind === 'visit')?.day;
  const proposed = /^\d{4}-\d{2}-\d{2}$/.test(asked) ? asked : due && due > today ? workingDayBefore(diary, due, today) : '';
  const ring = ringWords(record.facts);
  const rests = restsOn(record.phases, today);
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying="Booked visits, and what became of each">
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      {ring && <p>{`${ring}.`}</p>}
      {standing.length === 0 ? (
        <p className="nothing-yet">No visit is booked.</p>
      ) : (
        <BookingTable
          bookings={[...standing].reverse()}
          patientId={patientId}
          mayWrite={mayWrite}
          change={({ booking, how }) => (
            <BecameForm
              patientId={patientId}
              submissionId={crypto.randomUUID()}
              bookingId={booking.bookingId}
              number={booking.number}
              booked={bookingInWords(booking)}
              choices={BOOKING_STATES.filter(
                (one) => one !== booking.state && !(one === 'missed' && how === 'ahead' && booking.day > today),
              )}
            />
          )}
        />
      )}
      {mayWrite && (rests && !moved ? <p className="secondary">{rests}</p> : null)}
      {mayWrite && !rests && (
        <>
          <h2 className="section-head" id="form">
            {moved ? `Move the visit ${bookingInWords(moved)}` : 'Book a visit'}
          </h2>
          <BookingForm
            key={`${move} ${history.length}`}
            patientId={patientId}
            submissionId={crypto.randomUUID()}
            today={today}
            moved={moved ? { bookingId: moved.bookingId, number: moved.number } : null}
            start={moved ? { day: moved.day, time: moved.time ?? '', what: moved.what ?? '' } : { day: proposed }}
          />
        </>
      )}
      {history.length > 0 && (
        <details className="as-table">
          <summary>{`Every state, ${history.length}`}</summary>
          <ul>
            {history.map(({ thing, number, content, at, authorName, reason }) => {
              const booking = content === null ? null : BOOKING.parse(content);
              const said = booking ? `${bookingInWords(booking)}, ${booking.state}` : 'taken back';
              return (
                <li
                  key={`${thing} ${number}`}
                >{`${clock.format(at)}, ${authorName ?? 'someone no longer here'}: ${said}${reason ? ` (${reason})` : ''}`}</li>
              );
            })}
          </ul>
        </details>
      )}
    </main>
  );
}
