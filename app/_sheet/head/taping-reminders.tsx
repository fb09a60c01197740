import { type LimbKind, placeInWords } from '@/lib/ladder/limb';
import { tapingReminders } from '@/lib/ladder/taping-reminders';

/** What to see to before measuring, one line until it is opened; how it was done last time stands first. */
export function TapingReminders({ limb, last }: { limb: LimbKind; last: { posture: string | null; zero: string } | undefined }) {
  const before = last && [last.posture && `posture ${last.posture}`, `from the ${placeInWords(last.zero)}`].filter(Boolean).join(', ');
  return (
    <details className="as-table">
      <summary>Before you measure</summary>
      <ul>
        {before && <li>{`Last time: ${before}.`}</li>}
        {tapingReminders(limb).map(({ words, source }) => (
          <li key={words}>
            {words} <span className="secondary small">{source}</span>
          </li>
        ))}
      </ul>
      <p className="secondary">Local protocol comes first.</p>
    </details>
  );
}
