import { openSession } from '@/app/_auth/therapist';
import { secondsLeft } from '@/app/_auth/time-left';
import type { Clinic } from '@/db/clinic/clinic';
import type { Therapist } from '@/db/therapist';
import { IdleWarning } from './idle-warning';
import styles from './page-head.module.css';
import { PlaceLinks } from './place-links';
import { SearchBox } from './search-box';
import { TapeLine } from './tape-line';

/** The clinic's name, the four places, search and the person signed in, over the tape. The clinic's page, not ours. */
export async function PageHead({ clinic, therapist }: { clinic: Clinic; therapist: Therapist }) {
  const session = await openSession();
  return (
    <header className={styles.pageHead}>
      <a className={styles.skip} href="#main">
        To the page
      </a>
      <div className={styles.pageHeadRow}>
        <a className={styles.clinicName} href="/" data-soft="">
          {clinic.name} {clinic.subtitle && <small>{clinic.subtitle}</small>}
        </a>
        <nav className={styles.pagePlaces} aria-label="Places">
          <PlaceLinks />
        </nav>
        <SearchBox />
        <details className={styles.person}>
          <summary>
            <span className={styles.fullName}>{therapist.name}</span>
            <span className={styles.initials} aria-hidden="true">
              {initials(therapist.name)}
            </span>
            <span className="visually-hidden">, signed in</span>
          </summary>
          <div className={styles.personMenu}>
            <p>
              {therapist.name}
              <br />
              <span className="secondary small">{therapist.role}</span>
            </p>
            <a className="button" href="/account" data-soft="">
              Your account
            </a>
            <a className="button" href="/offline">
              Without a connection
            </a>
            <form action="/sign-out" method="post">
              <button className="button" type="submit">
                Sign out
              </button>
            </form>
          </div>
        </details>
      </div>
      <TapeLine />
      {session && <IdleWarning left={{ kind: 'open', person: therapist.id, ...secondsLeft({ ...session, usedAt: new Date() }) }} />}
    </header>
  );
}

/** `R. Adeyemi` is `RA`. */
function initials(name: string): string {
  const words = name.split(/[\s.]+/).filter(Boolean);
  return ((words[0]?.[0] ?? '') + (words.length > 1 ? (words.at(-1)?.[0] ?? '') : '')).toUpperCase();
}
