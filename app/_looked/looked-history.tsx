import { EveryState } from '@/app/_shell/every-state';
import type { NotedState } from '@/db/patients/noted';
import type { ObservedKind } from '@/lib/observations/kind';
import { OBSERVATION } from '@/lib/observations/observation-schema';
import { showDay } from '@/lib/units/calendar-day';
import { lookedInWords } from './looked-words';

type Props = { readonly history: readonly NotedState[]; readonly kinds: readonly ObservedKind[]; readonly timeZone: string };

/** Every state of everything that was looked at, the newest first. */
export function LookedHistory({ history, kinds, timeZone }: Props) {
  const said = (content: unknown): string => {
    if (content === null) return 'taken back';
    const one = OBSERVATION.parse(content);
    const label = kinds.find(({ id }) => id === one.kind)?.label ?? one.kind;
    return `${label} of ${showDay(one.day)}: ${lookedInWords(one, kinds)}`;
  };
  const states = history.map((one) => ({ ...one, key: `${one.thing} ${one.number}`, said: said(one.content) }));
  return <EveryState states={states} timeZone={timeZone} />;
}
