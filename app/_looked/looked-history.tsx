import { dayAndTime } from '@/app/_shell/day-and-time';
import type { NotedState } from '@/db/patients/noted';
import type { ObservedKind } from '@/lib/observations/kind';
import { OBSERVATION } from '@/lib/observations/observation-schema';
import { showDay } from '@/lib/units/calendar-day';
import { lookedInWords } from './looked-words';

type Props = { readonly history: readonly NotedState[]; readonly kinds: readonly ObservedKind[]; readonly timeZone: string };

/** Every state of everything that was looked at, the newest first. */
export function LookedHistory({ history, kinds, timeZone }: Props) {
  if (history.length === 0) return null;
  const clock = dayAndTime(timeZone);
  return (
    <details className="as-table">
      <summary>{`Every state, ${history.length}`}</summary>
      <ul>
        {history.map(({ thing, number, content, at, authorName, reason }) => {
          const one = content === null ? null : OBSERVATION.parse(content);
          const label = kinds.find(({ id }) => id === one?.kind)?.label ?? one?.kind;
          const said = one ? `${label} of ${showDay(one.day)}: ${lookedInWords(one, kinds)}` : 'taken back';
          return (
            <li
              key={`${thing} ${number}`}
            >{`${clock.format(at)}, ${authorName ?? 'someone no longer here'}: ${said}${reason ? ` (${reason})` : ''}`}</li>
          );
        })}
      </ul>
    </details>
  );
}
