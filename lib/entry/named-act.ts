import type { GirthCell, LimbSheet } from '../visit-form/visit-form';
import { inOrder } from './in-order';

/** One box before and after an act; undefined where it was, or is, empty. */
type Change<T> = { readonly before: T | undefined; readonly after: T | undefined };

/**
 * One act on a sheet that is more than typing: an offer taken, figures moved or pasted, a question kept, another ruler.
 *
 * It holds the boxes that it changed and nothing else, so that taking it back leaves alone whatever was typed since.
 */
export type NamedAct = {
  /** What was done, as it stands after "Undo:". Example: `move five rungs one on`. */
  readonly words: string;
  readonly group: number;
  readonly cells: Readonly<Record<string, Change<GirthCell>>>;
  /** The set-up before and after, where the act changed it. */
  readonly setUp: Change<Partial<LimbSheet>> | null;
  /** Another ruler reads every figure anew: it is taken back only while all figures are as the act left them. */
  readonly allCells: Readonly<Record<string, GirthCell>> | null;
};

/** Rows at the end of a grid: more of them change no figure. */
const HARMLESS: ReadonlySet<string> = new Set(['more', 'count', 'extras']);

/** What an act changed, by the sheet before and after it; undefined when it changed nothing. */
export function namedAct(words: string, group: number, before: LimbSheet, after: LimbSheet): NamedAct | undefined {
  const keys = [...new Set([...Object.keys(before.cells), ...Object.keys(after.cells)])];
  const changed = keys.filter((key) => !isSame(before.cells[key], after.cells[key]));
  const cells = Object.fromEntries(changed.map((key) => [key, { before: before.cells[key], after: after.cells[key] }]));
  const names = (Object.keys(after) as (keyof LimbSheet)[]).filter((name) => name !== 'cells' && !isSame(before[name], after[name]));
  if (changed.length === 0 && names.length === 0) return undefined;
  const part = (sheet: LimbSheet) => Object.fromEntries(names.map((name) => [name, sheet[name]])) as Partial<LimbSheet>;
  return {
    words,
    group,
    cells,
    setUp: names.length === 0 ? null : { before: part(before), after: part(after) },
    allCells: names.some((name) => !HARMLESS.has(name)) ? after.cells : null,
  };
}

/**
 * The sheet with an act taken back (`back`) or done again (`again`); undefined when the act no longer applies, because a box that it
 * changed has another figure since.
 */
export function withAct(sheet: LimbSheet, act: NamedAct, way: 'back' | 'again'): LimbSheet | undefined {
  const [from, to] = way === 'back' ? (['after', 'before'] as const) : (['before', 'after'] as const);
  const entries = Object.entries(act.cells);
  if (!entries.every(([key, change]) => isSame(sheet.cells[key], change[from]))) return undefined;
  const setUp = act.setUp?.[from] ?? {};
  if (!(Object.keys(setUp) as (keyof LimbSheet)[]).every((name) => isSame(sheet[name], setUp[name]))) return undefined;
  if (act.allCells && !isSame(sheet.cells, way === 'back' ? act.allCells : before(act))) return undefined;
  const cells = { ...sheet.cells };
  for (const [key, change] of entries) {
    const figure = change[to];
    if (figure) cells[key] = figure;
    else delete cells[key];
  }
  return { ...sheet, ...act.setUp?.[to], cells };
}

/** All cells as they were before an act that changed the ruler. */
function before({ allCells, cells }: NamedAct): Record<string, GirthCell> {
  const kept = Object.entries(allCells ?? {}).filter(([key]) => cells[key] === undefined);
  const changed = Object.entries(cells).flatMap(([key, change]) => (change.before ? [[key, change.before] as const] : []));
  return Object.fromEntries([...kept, ...changed]);
}

/** Equal as plain data, whatever the order of keys. */
function isSame(one: unknown, other: unknown): boolean {
  return one === other || inOrder(one) === inOrder(other);
}
