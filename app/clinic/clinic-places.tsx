import type { Role } from '@/db/therapist';
import styles from './clinic-places.module.css';

type Place = {
  readonly page: string;
  readonly name: string;
  readonly holds: string /** Whom it is for; everybody where none is named. */;
  readonly seenBy?: readonly Role[];
};

const LEADS: readonly Role[] = ['lead'];
const WRITERS: readonly Role[] = ['lead', 'therapist'];

/** The pages of a clinic by what somebody comes for, each with what it holds. */
const GROUPS: readonly { readonly head: string; readonly places: readonly Place[] }[] = [
  {
    head: 'How it measures',
    places: [
      { page: 'limits', name: 'Limits and their sources', holds: 'Every threshold that the program judges by.' },
      { page: 'parts', name: 'Own measures and garments', holds: 'What the clinic adds to the catalogue.' },
      { page: 'looked', name: 'What is looked at', holds: 'What is asked at a visit beside the tape.' },
      { page: 'measurers', name: 'Who measured', holds: 'Names in old visits, matched to people.', seenBy: LEADS },
      { page: 'studies', name: 'Measurer studies', holds: 'How far two tapings of one limb differ.', seenBy: WRITERS },
    ],
  },
  {
    head: 'How it works',
    places: [
      { page: 'diary', name: 'Working days', holds: 'Weekdays, closed days, visits a day.' },
      { page: 'calendar', name: 'Calendar', holds: 'Dates without names, for another calendar.' },
      { page: 'coverage', name: 'Coverage rules', holds: 'What a payer allows, and how often.' },
      { page: 'leaving', name: 'Leaving', holds: 'What is gone through before somebody leaves.' },
      { page: 'family-texts', name: 'Family texts', holds: 'Washing, waiting, and whom to call.' },
    ],
  },
  {
    head: 'The clinic itself',
    places: [
      { page: 'details', name: 'Name, address, units', holds: 'And where the tape starts.', seenBy: LEADS },
      { page: 'people', name: 'People and access', holds: 'Who may sign in, and what for.', seenBy: LEADS },
      { page: 'service', name: 'How good are we?', holds: 'Remakes, days, forecasts that came true.', seenBy: LEADS },
      { page: 'exchange', name: 'Bring in, take out', holds: 'Spreadsheets, bundles, the whole record.', seenBy: LEADS },
    ],
  },
];

/** Where to go from the clinic’s page; a group of which somebody may see nothing is left out. */
export function ClinicPlaces({ role }: { readonly role: Role }) {
  return (
    <nav className={styles.places} aria-label="Pages of the clinic">
      {GROUPS.map(({ head, places }) => ({ head, places: places.filter(({ seenBy }) => seenBy?.includes(role) ?? true) }))
        .filter(({ places }) => places.length > 0)
        .map(({ head, places }) => (
          <section key={head} className="panel">
            <h2>{head}</h2>
            <ul>
              {places.map(({ page, name, holds }) => (
                <li key={page}>
                  <a href={`/clinic/${page}`} data-soft="">
                    {name}
                  </a>
                  <span className={styles.holds}>{holds}</span>
                </li>
              ))}
            </ul>
          </section>
        ))}
    </nav>
  );
}
