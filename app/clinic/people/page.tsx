import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { dayAndTime } from '@/app/_shell/day-and-time';
import { clinicOf } from '@/db/clinic/clinic';
import { INVITE_DAYS } from '@/db/people/one-time-links';
import { type ListedPerson, peopleOf } from '@/db/people/people';
import { InviteForm } from './invite-form';
import { ManagePerson } from './manage-person';
import styles from './people.module.css';

export const metadata: Metadata = { title: 'People' };

/** Who may sign in, as what, and how they stand; a lead invites, changes and keeps out. */
export default async function PeoplePage({ searchParams }: { searchParams: Promise<{ change?: string }> }) {
  const lead = await requireRole('lead');
  const [{ change }, clinic, people] = [await searchParams, await clinicOf(lead), await peopleOf(lead)];
  const clock = dayAndTime(clinic.timeZone);
  const chosen = people.find((person) => person.id === change);
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>People and access</h1>
          <p className="secondary">
            A lead manages people and the clinic’s rules. A therapist tapes, orders and signs. A read-only person looks and changes nothing.
          </p>
        </div>
        <div className="actions">
          <a className="button" href="/clinic" data-soft="">
            Back to the clinic
          </a>
        </div>
      </div>
      {chosen && <ManagePerson key={chosen.id} person={chosen} isOneself={chosen.id === lead.id} />}
      <table className={`worklist ${styles.people}`}>
        <thead>
          <tr>
            <ColumnHeads of={['Name', 'Role', 'State', 'Last signed in', 'Second factor']} />
            <th scope="col">
              <span className="visually-hidden">Change</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {people.map((person) => (
            <tr key={person.id}>
              <th scope="row">
                {person.name} <span className="second-line secondary small">{person.email}</span>
              </th>
              <td>{person.role}</td>
              <td>{STATE[person.state]}</td>
              <td className="whole-row" data-word="last signed in">
                {person.lastSignedInAt ? clock.format(person.lastSignedInAt) : 'never'}
              </td>
              <td data-word="second factor">{person.hasSecondFactor ? 'on' : 'off'}</td>
              <td className="whole-row">
                <a className="button" href={`/clinic/people?change=${person.id}`} aria-label={`Change ${person.name}`} data-soft="">
                  Change
                </a>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <h2 className="section-head">Invite somebody</h2>
      <p className="secondary">
        You get a link to hand over, in person or by a message of your own; this program sends none. It opens once, within {INVITE_DAYS}{' '}
        days.
      </p>
      <InviteForm />
    </main>
  );
}

const STATE: Readonly<Record<ListedPerson['state'], string>> = {
  active: 'active',
  disabled: 'disabled',
  invited: 'invited, no password yet',
};
