import type { Place } from '@/db/worklist/work-lines';
import type { WorkGroup, WorkKind } from '@/lib/schedule/worklist';
import { readDay } from '@/lib/units/calendar-day';

/** The kinds a person can choose among, with the words of the filter. */
export const FILTERS: readonly { readonly kind: WorkKind | 'all'; readonly words: string }[] = [
  { kind: 'all', words: 'All' },
  { kind: 'order', words: 'Order' },
  { kind: 'remeasure', words: 'Remeasure' },
  { kind: 'first-fit', words: 'First fit' },
  { kind: 'visit', words: 'Visit' },
  { kind: 'call', words: 'Calls and replies' },
  { kind: 'delivery', words: 'Delivery' },
  { kind: 'refer', words: 'Refer' },
];

/** What the first screen shows: everything stands in the address, so that a reload or a shared link shows the same. */
export type TodayView = {
  readonly kind: WorkKind | 'all';
  readonly q: string;
  /** Only patients whose newest visit the person signed in wrote. */
  readonly mine: boolean;
  /** Where each group is read from; absent at its start. */
  readonly places: Readonly<Partial<Record<WorkGroup, Place>>>;
  /** The line whose answer form is open. */
  readonly answer: string | null;
};

const GROUPS = ['overdue', 'this-week', 'later'] as const;

/** The view that an address asks for; what cannot be read is left out. */
export function readView(asked: Readonly<Record<string, string | readonly string[] | undefined>>): TodayView {
  const said = (name: string): string => [asked[name] ?? ''].flat()[0] ?? '';
  const places: Partial<Record<WorkGroup, Place>> = {};
  for (const group of GROUPS) {
    const [day = '', id = ''] = said(group).split('~');
    const due = readDay(day);
    if (due.kind === 'read' && id) places[group] = { due: due.value, id };
  }
  const kind = FILTERS.find((one) => one.kind === said('kind'))?.kind ?? 'all';
  return { kind, q: said('q').trim().slice(0, 100), mine: said('whose') === 'mine', places, answer: said('answer') || null };
}

/** The address of a view. Example: only orders is `/?kind=order`. */
export function addressOf({ kind, q, mine, places, answer }: TodayView): string {
  const asked = new URLSearchParams();
  if (kind !== 'all') asked.set('kind', kind);
  if (q) asked.set('q', q);
  if (mine) asked.set('whose', 'mine');
  for (const group of GROUPS) {
    const place = places[group];
    if (place) asked.set(group, `${place.due}~${place.id}`);
  }
  if (answer) asked.set('answer', answer);
  return asked.size > 0 ? `/?${asked}` : '/';
}
