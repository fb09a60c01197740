import type { MetDraft } from '@/lib/entry/entry-data';
import { figureDifferences } from '@/lib/entry/figure-differences';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import { DifferenceTable } from './difference-table';
import styles from './draft.module.css';

type ChooseProps = {
  readonly theirs: MetDraft | null;
  /** Where the visit is that this very sheet was saved as. */
  readonly savedAt: string | undefined;
  readonly mine: VisitForm;
  readonly onTheirs: (theirs: MetDraft) => void;
  readonly onMine: (theirs: MetDraft | null) => void;
  readonly onDrop: () => void;
};

/** Two drafts of one person on one visit, beside the save state: where they differ, figure by figure. A person chooses; they are never mixed. */
export function ChooseDraft({ theirs, savedAt, mine, onTheirs, onMine, onDrop }: ChooseProps) {
  if (!theirs) {
    return (
      <section className={styles.choose} role="alert">
        <p>
          <b>{savedAt ? 'This visit is saved already.' : 'The draft that this was typed over is finished, given up or out of date.'}</b>{' '}
          What is typed here is not part of it.
        </p>
        <div className="actions">
          {savedAt && (
            <a className="button" href={savedAt}>
              Open the saved visit
            </a>
          )}
          <button className="button" type="button" onClick={() => onMine(null)}>
            Keep this as a new draft
          </button>
          <button className="button" type="button" onClick={onDrop}>
            Let it go
          </button>
        </div>
      </section>
    );
  }
  const differences = figureDifferences(theirs.content.form, mine);
  return (
    <section className={styles.choose} role="alert">
      <p>
        <b>The server holds a newer draft of yours{theirs.at ? `, kept at ${theirs.at}` : ''}.</b> Nothing is mixed: choose one.
      </p>
      <DifferenceTable caption={differing(differences.length)} one="On the server" other="Here" differences={differences} />
      <div className="actions">
        <button className="button" type="button" onClick={() => onTheirs(theirs)}>
          Take the draft on the server
        </button>
        <button className="button" type="button" onClick={() => onMine(theirs)}>
          Keep what is typed here
        </button>
      </div>
    </section>
  );
}

function differing(count: number): string {
  return count === 1 ? 'They differ in one box.' : `They differ in ${count} boxes.`;
}
