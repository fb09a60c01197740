import { type MeasureText, measureKey, type VisitForm } from '../visit-form/visit-form';
import { inOrder } from './in-order';

/** One act on named measures that is more than typing: a question kept, an offer taken, figures pasted. It holds the measures it changed and nothing else. */
export type MeasureAct = {
  /** What was done, as it stands after "Undo:". */
  readonly words: string;
  readonly measures: Readonly<Record<string, { readonly before: MeasureText | undefined; readonly after: MeasureText | undefined }>>;
};

/** What an act changed, by the form before and after it; undefined when it changed no measure. */
export function measureAct(words: string, before: VisitForm, after: VisitForm): MeasureAct | undefined {
  const [was, is] = [byKey(before), byKey(after)];
  const changed = [...new Set([...was.keys(), ...is.keys()])].filter((key) => !isSame(was.get(key), is.get(key)));
  if (changed.length === 0) return undefined;
  return { words, measures: Object.fromEntries(changed.map((key) => [key, { before: was.get(key), after: is.get(key) }])) };
}

/** The form with an act taken back or done again; undefined when a measure that it changed has another figure since. Parts that were taken up stay. */
export function withMeasureAct(form: VisitForm, act: MeasureAct, way: 'back' | 'again'): VisitForm | undefined {
  const [from, to] = way === 'back' ? (['after', 'before'] as const) : (['before', 'after'] as const);
  const now = byKey(form);
  const entries = Object.entries(act.measures);
  if (!entries.every(([key, change]) => isSame(now.get(key), change[from]))) return undefined;
  for (const [key, change] of entries) {
    const figure = change[to];
    if (figure) now.set(key, figure);
    else now.delete(key);
  }
  return { ...form, measures: [...now.values()] };
}

function byKey({ measures }: VisitForm): Map<string, MeasureText> {
  return new Map((measures ?? []).map((one) => [measureKey(one), one]));
}

function isSame(one: unknown, other: unknown): boolean {
  return one === other || inOrder(one) === inOrder(other);
}
