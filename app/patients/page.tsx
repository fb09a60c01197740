import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { clinicOf } from '@/db/clinic/clinic';
import { findPatients, lastVisitDays } from '@/db/patients/find-patients';
import { PatientTable } from './patient-table';

export const metadata: Metadata = { title: 'Patients' };

type Asked = { readonly q?: string; readonly page?: string };

/** Every patient of the clinic, or those that match the words searched for; both stand in the address. */
export default async function PatientsPage({ searchParams }: { searchParams: Promise<Asked> }) {
  const { q = '', page = '1' } = await searchParams;
  const therapist = await requireTherapist(address(q, Number(page) || 1));
  const found = await findPatients(therapist, q, Number(page) || 1);
  const today = todayIn((await clinicOf(therapist)).timeZone);
  const ids = found.rows.map((row) => row.patientId);
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>Patients</h1>
          <p className="secondary">{sentence(found.total, q)}</p>
        </div>
        <div className="actions">
          {q && (
            <a className="button" href="/patients" data-soft="">
              Show all
            </a>
          )}
          {therapist.role !== 'read-only' && (
            <a className="button main" href="/patients/new" data-soft="">
              New patient
            </a>
          )}
        </div>
      </div>
      {found.damaged.length > 0 && <p role="alert">{damaged(found.damaged)}</p>}
      {found.total > 0 ? (
        <PatientTable patients={found.rows} lastVisits={await lastVisitDays(therapist, ids)} today={today} />
      ) : (
        <p className="nothing-yet">{q ? 'Search looks in references and names. Try fewer letters.' : 'Add the first one to begin.'}</p>
      )}
      {found.pages > 1 && (
        <nav className="pages" aria-label="Pages of the list">
          {found.page > 1 ? (
            <a href={address(q, found.page - 1)} data-soft="">
              Earlier in the list
            </a>
          ) : (
            <span />
          )}
          <span className="secondary">
            page {found.page} of {found.pages}
          </span>
          {found.page < found.pages ? (
            <a href={address(q, found.page + 1)} data-soft="">
              Later in the list
            </a>
          ) : (
            <span />
          )}
        </nav>
      )}
    </main>
  );
}

function damaged(ids: readonly string[]): string {
  const who = ids.length === 1 ? 'The record of 1 patient' : `The records of ${ids.length} patients`;
  return `${who} on this page cannot be read (${ids.join(', ')}). Nothing was changed. Tell whoever runs the server: npm run verify-data says more.`;
}

function sentence(total: number, q: string): string {
  const people = total === 1 ? '1 patient' : `${total} patients`;
  if (!q) return total === 0 ? 'No patients yet.' : `${people}, by reference.`;
  return total === 0 ? `Nobody matches “${q}”.` : `${people} ${total === 1 ? 'matches' : 'match'} “${q}”.`;
}

function address(q: string, page: number): string {
  const asked = new URLSearchParams();
  if (q) asked.set('q', q);
  if (page > 1) asked.set('page', String(page));
  return asked.size > 0 ? `/patients?${asked}` : '/patients';
}
