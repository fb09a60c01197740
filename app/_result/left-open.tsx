import type { LoadedPatient } from '@/app/_record/load-patient';
import { knownBefore } from '@/app/_sheet/read-sheet-data';
import type { KeptVisit } from '@/db/patients/read-visits';
import { openQuestions } from '@/lib/entry/open-questions';
import type { Doubt } from '@/lib/ladder/doubt';
import { limbInWords } from '@/lib/ladder/limb';
import { formOfVisit } from '@/lib/visit-form/form-of-visit';
import styles from './result.module.css';

type Props = {
  readonly loaded: LoadedPatient;
  readonly visit: KeptVisit;
  readonly mayWrite: boolean;
  /** Doubts that the page shows already. */
  readonly shown: readonly Doubt[];
};

/**
 * The sheet's questions that a stored visit still raises beside the record as it was before it, and that nobody has answered.
 *
 * They ask and change no figure and no verdict: what looks odd beside the last visit may be the very change that is looked for.
 */
export function LeftOpen({ loaded: { record, clinic, analysis, today }, visit, mayWrite, shown }: Props) {
  const form = formOfVisit(visit, clinic);
  const known = knownBefore(record, visit.visitId, analysis.policy, today);
  const messages = new Set(shown.map((doubt) => doubt.message));
  const open = openQuestions(form, known).filter(({ doubt }) => !messages.has(doubt.message));
  if (open.length === 0) return null;
  return (
    <section className={`panel ${styles.leftOpen}`} aria-labelledby="left-open-head">
      <h2 id="left-open-head">
        Questions left open <span className="head-note">{`${open.length}, answered by nobody yet`}</span>
      </h2>
      <ul className={styles.doubts}>
        {open.map(({ group, side, row, doubt }) => (
          <li key={`${group} ${side} ${row} ${doubt.kind}`}>
            {`◇ ${limbInWords(form.sheets[group]?.limb ?? 'leg', side)}: ${doubt.message}`}
          </li>
        ))}
      </ul>
      {mayWrite && (
        <p>
          <a href={`/patients/${visit.patientId}/visits/${visit.visitId}/correct`} data-soft="">
            Keep or correct them
          </a>
        </p>
      )}
    </section>
  );
}
