import { dayAndTime } from './day-and-time';

type State = {
  readonly key: string;
  readonly at: Date;
  readonly authorName: string | null;
  readonly reason: string | null;
  /** What stood, in a sentence. */
  readonly said: string;
};

/** Every state of some things, folded: when, by whom, what, and why in brackets. Nothing where there is none. */
export function EveryState({ states, timeZone }: { readonly states: readonly State[]; readonly timeZone: string }) {
  if (states.length === 0) return null;
  const clock = dayAndTime(timeZone);
  return (
    <details className="as-table">
      <summary>{`Every state, ${states.length}`}</summary>
      <ul>
        {states.map(({ key, at, authorName, reason, said }) => (
          <li key={key}>{`${clock.format(at)}, ${authorName ?? 'someone no longer here'}: ${said}${reason ? ` (${reason})` : ''}`}</li>
        ))}
      </ul>
    </details>
  );
}
