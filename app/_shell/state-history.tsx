import { HistoryTable } from './history-table';

/** One state as it was written: its number, when, by whom, why, and what stood. */
type State = {
  readonly number: number;
  readonly at: Date;
  readonly authorName: string | null;
  readonly reason: string | null;
  readonly stood: string;
};

type Props = {
  /** The newest first. */
  readonly states: readonly State[];
  readonly timeZone: string;
  /** Head of the column that says what stood, and what is said where no reason was given. */
  readonly head: string;
  readonly unsaid: string;
};

/** Every state that a person wrote, with its heading. Nothing where there is none. */
export function StateHistory({ states, timeZone, head, unsaid }: Props) {
  if (states.length === 0) return null;
  return (
    <>
      <h2 className="section-head">
        History <span className="count">{states.length}</span>
      </h2>
      <HistoryTable
        revisions={[...states].reverse().map((one) => ({ ...one, revision: one.number, author: one.authorName ?? '' }))}
        names={new Map(states.flatMap(({ authorName }) => (authorName ? [[authorName, authorName]] : [])))}
        timeZone={timeZone}
        first={unsaid}
        more={[{ head, show: ({ stood }) => stood }]}
      />
    </>
  );
}
