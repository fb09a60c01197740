import { DifferenceTable } from '@/app/_draft/difference-table';
import { dayAndTime } from '@/app/_shell/day-and-time';
import type { Clinic } from '@/db/clinic/clinic';
import type { KeptVisit } from '@/db/patients/read-visits';
import { figureDifferences } from '@/lib/entry/figure-differences';
import { formOfVisit } from '@/lib/visit-form/form-of-visit';
import styles from './correct.module.css';

/** Every state a visit has had: who wrote it, when, why, and what it changed. Nothing is ever overwritten. */
export function EarlierStates({ revisions, clinic }: { revisions: readonly KeptVisit[]; clinic: Clinic }) {
  const when = dayAndTime(clinic.timeZone);
  const newestFirst = revisions.map((revision, index) => ({ revision, before: revisions[index - 1] })).reverse();
  return (
    <section className={styles.earlierStates} aria-labelledby="states-head">
      <h2 id="states-head" className="section-head">
        States of this visit <span className="count">{revisions.length}</span>
      </h2>
      <ol reversed>
        {newestFirst.map(({ revision, before }) => (
          <li key={revision.revision}>
            <p>
              <b>{revision.revision === 1 ? 'Saved' : `Correction ${revision.revision - 1}`}</b> by{' '}
              {revision.authorName ?? 'somebody who has left'}, {when.format(revision.at)}
              {revision.reason ? `: ${revision.reason}` : ''}
            </p>
            {before && (
              <DifferenceTable
                caption="What it changed"
                one="before"
                other="after"
                differences={figureDifferences(formOfVisit(before, clinic), formOfVisit(revision, clinic))}
              />
            )}
          </li>
        ))}
      </ol>
    </section>
  );
}
