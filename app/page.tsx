import type { Metadata } from 'next';
import Link from 'next/link';
import { clinicOf } from '@/db/clinic';
import { findPatients, lastVisitDays } from '@/db/find-patients';
import { showWeekday } from '@/lib/units/calendar-day';
import { requireTherapist } from './_session/therapist';
import { todayIn } from './_session/today';
import { PatientTable } from './patients/patient-table';

export const metadata: Metadata = { title: 'Today' };

/** The first screen: the day, and the patients of the clinic. */
export default async function TodayPage() {
  const therapist = await requireTherapist('/');
  const today = todayIn((await clinicOf(therapist)).timeZone);
  const found = await findPatients(therapist);
  const lastVisits = await lastVisitDays(
    therapist,
    found.rows.map((row) => row.patientId),
  );
  return (
    <main id="main">
      <div className="title-row">
        <h1>{showWeekday(today)}</h1>
        {therapist.role !== 'read-only' && (
          <Link className="button main" href="/patients/new">
            New patient
          </Link>
        )}
      </div>
      {found.total > 0 ? (
        <PatientTable patients={found.rows} lastVisits={lastVisits} today={today} />
      ) : (
        <p className="nothing-yet">No patients yet. Add the first one, bring in a file, or look round with made-up people.</p>
      )}
    </main>
  );
}
