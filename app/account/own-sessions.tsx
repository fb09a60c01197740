import { ColumnHeads } from '@/app/_shell/column-heads';
import { endOtherSessionsAction, endSessionAction } from './actions';

type Session = {
  readonly id: string;
  readonly device: string;
  readonly address: string;
  readonly since: string;
  readonly lastUsed: string;
  readonly isThis: boolean;
};

/** Where a person is signed in, each to be ended alone, or all others at once. */
export function OwnSessions({ sessions }: { readonly sessions: readonly Session[] }) {
  return (
    <section className="panel" aria-labelledby="sessions-head">
      <h2 id="sessions-head">Where you are signed in</h2>
      <table className="worklist">
        <thead>
          <tr>
            <ColumnHeads of={['Browser', 'Address', 'Since', 'Last used']} />
            <th scope="col">
              <span className="visually-hidden">End it</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {sessions.map((one) => (
            <tr key={one.id}>
              <th scope="row">{one.device}</th>
              <td data-word="address">{one.address}</td>
              <td data-word="since">{one.since}</td>
              <td data-word="last used">{one.lastUsed}</td>
              <td className="whole-row">
                {one.isThis ? (
                  'this one'
                ) : (
                  <form action={endSessionAction}>
                    <input type="hidden" name="sessionId" value={one.id} />
                    <button type="submit" className="button" aria-label={`End ${one.device}, since ${one.since}`}>
                      End
                    </button>
                  </form>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {sessions.length > 1 && (
        <form action={endOtherSessionsAction}>
          <button type="submit" className="button">
            End all others
          </button>
        </form>
      )}
    </section>
  );
}
