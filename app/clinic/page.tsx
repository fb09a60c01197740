import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { dayAndTime } from '@/app/_shell/day-and-time';
import { shownAction } from '@/db/audit/audit-actions';
import { auditEntries } from '@/db/clinic/audit-entries';
import { clinicOf } from '@/db/clinic/clinic';
import { headsOf } from '@/db/patients/find-patients';
import type { PatientHead } from '@/db/patients/patients';
import { peopleOf } from '@/db/people/people';
import { historyState } from '@/db/upkeep/history-state';
import { ClinicPlaces } from './clinic-places';

export const metadata: Metadata = { title: 'Clinic' };

/** The clinic as it is set up, its people, and what was done lately. */
export default async function ClinicPage() {
  const therapist = await requireTherapist('/clinic');
  const [clinic, people, deeds] = [await clinicOf(therapist), await peopleOf(therapist), await auditEntries(therapist, 20)];
  const doubts = therapist.role === 'lead' ? await historyState() : [];
  const clock = dayAndTime(clinic.timeZone);
  const heads = await headsOf(
    therapist,
    deeds.flatMap((deed) => patientOf(deed) ?? []),
  );
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>{clinic.name}</h1>
          <p className="secondary">
            Tapes in {clinic.lengthUnit === 'in' ? 'inches' : 'centimetres'}, weighs in {clinic.massUnit === 'lb' ? 'pounds' : 'kilograms'},
            counts days in {clinic.timeZone}.
          </p>
        </div>
      </div>
      {doubts.length > 0 && (
        <div className="refused-box" role="alert">
          <p>
            The history of this clinic does not reach what is known of it. Stop, and compare with the newest backup (npm run verify-data).
          </p>
          {doubts.map((doubt) => (
            <p key={doubt}>{doubt}</p>
          ))}
        </div>
      )}
      <ClinicPlaces role={therapist.role} />
      <h2 className="section-head">
        People <span className="count">{people.length}</span>
      </h2>
      <table className="worklist">
        <thead>
          <tr>
            <ColumnHeads of={['Name', 'Role', 'E-mail']} />
          </tr>
        </thead>
        <tbody>
          {people.map((person) => (
            <tr key={person.id}>
              <th scope="row">{person.name}</th>
              <td>{person.role}</td>
              <td className="whole-row">{person.email}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <h2 className="section-head">Lately</h2>
      <table className="worklist">
        <thead>
          <tr>
            <ColumnHeads of={['What', 'About', 'Who', 'When']} />
          </tr>
        </thead>
        <tbody>
          {deeds.map((deed) => (
            <tr key={deed.id}>
              <th scope="row">{shownAction(deed.action)}</th>
              <td>
                <About head={heads.find(({ patientId }) => patientId === patientOf(deed))} />
              </td>
              <td>{deed.whoName ?? (deed.who.startsWith('link ') ? 'the family, by its link' : 'unknown')}</td>
              <td className="whole-row">{clock.format(deed.at)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </main>
  );
}

function About({ head }: { readonly head: PatientHead | undefined }) {
  if (!head) return null;
  return (
    <a href={`/patients/${head.patientId}`} data-soft="">
      {head.reference}
    </a>
  );
}

type AuditRow = Awaited<ReturnType<typeof auditEntries>>[number];

/** The patient a deed is about, where it is about one. */
function patientOf({ subjectKind, subjectId, detail }: AuditRow): string | undefined {
  if (subjectKind === 'patient') return subjectId;
  return typeof detail?.patientId === 'string' ? detail.patientId : undefined;
}
