import clsx from 'clsx';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { dayAndTime } from './day-and-time';

/** One state of something that is only ever revised. */
type Revision = { readonly revision: number; readonly at: Date; readonly author: string; readonly reason: string | null };

type Props<T extends Revision> = {
  readonly revisions: readonly T[];
  /** Names of people by id. */
  readonly names: ReadonlyMap<string, string>;
  /** The clinic's time zone. */
  readonly timeZone: string;
  /** What the first state is called, which has no reason. */
  readonly first: string;
  readonly more?: readonly { readonly head: string; readonly show: (one: T) => string }[];
};

/** Every state of a record, the newest first: who wrote it, when and why, and what else of it is worth a column. */
export function HistoryTable<T extends Revision>({ revisions, names, timeZone, first, more = [] }: Props<T>) {
  const clock = dayAndTime(timeZone);
  return (
    <div className="table-frame">
      <table className={clsx('history-table', more.length > 2 && 'wide-table')}>
        <thead>
          <tr>
            <ColumnHeads of={['State', 'Written', 'By', 'What', ...more.map((one) => one.head)]} />
          </tr>
        </thead>
        <tbody>
          {[...revisions].reverse().map((one) => (
            <tr key={one.revision}>
              <th scope="row">{one.revision}</th>
              <td>{clock.format(one.at)}</td>
              <td>{personIn(names, one.author)}</td>
              <td>{one.reason ?? first}</td>
              {more.map(({ head, show }) => (
                <td key={head}>{show(one)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** A person's name, or that they are no longer in the clinic. */
export function personIn(names: ReadonlyMap<string, string>, id: string): string {
  return names.get(id) ?? 'someone no longer here';
}
