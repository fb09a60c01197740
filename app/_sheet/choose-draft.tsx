import type { VisitForm } from '@/lib/record/visit-form';
import { figuresOf } from './changed-figures';
import type { MetDraft } from './sheet-data';

type ChooseProps = {
  readonly theirs: MetDraft | null;
  readonly mine: VisitForm;
  readonly onTheirs: (theirs: MetDraft) => void;
  readonly onMine: (theirs: MetDraft | null) => void;
};

/** Two windows of one person typed on one visit: both are shown, and the person chooses; they are never mixed. */
export function ChooseDraft({ theirs, mine, onTheirs, onMine }: ChooseProps) {
  if (!theirs) {
    return (
      <section className="panel choose" role="alert">
        <p>
          <b>This draft was finished or given up in another window.</b> What is typed here is only in this window now.
        </p>
        <div className="actions">
          <button className="button" type="button" onClick={() => onMine(null)}>
            Keep this as a new draft
          </button>
        </div>
      </section>
    );
  }
  const [here, there] = [figuresOf(mine), figuresOf(theirs.content.form)];
  const places = [...new Set([...here.keys(), ...there.keys()])].filter((place) => here.get(place) !== there.get(place));
  return (
    <section className="panel choose" role="alert">
      <p>
        <b>Another window of yours kept a newer draft at {theirs.at}.</b> Nothing is mixed: choose one.
      </p>
      <p>
        There {there.size} figures, here {here.size}; {places.length} differ.
      </p>
      <div className="actions">
        <button className="button" type="button" onClick={() => onTheirs(theirs)}>
          Take the newer draft
        </button>
        <button className="button" type="button" onClick={() => onMine(theirs)}>
          Keep what is typed here
        </button>
      </div>
    </section>
  );
}
