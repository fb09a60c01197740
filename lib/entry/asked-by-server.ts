import { cellKey, type VisitForm } from '../visit-form/visit-form';
import type { Known } from './entry-data';
import type { OpenQuestion } from './typed-view';
import type { VisitQuestion } from './visit-question';

/** A question and the sheet of the form that it stands on. */
export type QuestionOnForm = OpenQuestion & { readonly group: number };

/** What comes back from the server when it asks more than the sheet did: what it knows now, and its questions. */
export type ServerAsks = { readonly kind: 'asked'; readonly known: Known } & Unasked;

/** Questions that nobody has seen: of the ladders, and of the visit itself. */
export type Unasked = { readonly asks: readonly QuestionOnForm[]; readonly ofVisit: readonly VisitQuestion[] };

/** No question. */
export const NOTHING_ASKED: Unasked = { asks: [], ofVisit: [] };

/** What the server asked over a form that was sent. */
export type Asked = { readonly form: VisitForm; readonly asks: readonly QuestionOnForm[] };

/** By what a question is known on both sides of the wire: `0/right/38100000/tens-digit`. */
export function questionKey({ group, side, row, doubt }: QuestionOnForm): string {
  return `${group}/${side}/${row}/${doubt.kind}`;
}

/** The keys a sheet sent, whatever it really sent: nothing else, and not without bound. */
export function keysOf(sent: unknown): readonly string[] {
  return Array.isArray(sent) ? sent.filter((one) => typeof one === 'string').slice(0, 500) : [];
}

/**
 * The questions of one sheet with those that the server asked beside them, as long as the figure it asked about stands and is not kept.
 *
 * A page that is older than the program on the server may not raise them by itself.
 */
export function withAsked(own: readonly OpenQuestion[], group: number, form: VisitForm, asked: Asked | null): readonly OpenQuestion[] {
  const key = (one: OpenQuestion) => questionKey({ ...one, group });
  const known = new Set(own.map(key));
  const more = (asked?.asks ?? []).filter((one) => one.group === group && !known.has(key(one)) && standsStill(one, form, asked?.form));
  return more.length === 0 ? own : [...own, ...more];
}

function standsStill({ group, side, row, whole, doubt }: QuestionOnForm, form: VisitForm, sent: VisitForm | undefined): boolean {
  const cells = form.sheets[group]?.cells ?? {};
  const before = sent?.sheets[group]?.cells ?? {};
  const keys = whole ? Object.keys(cells).filter((key) => key.startsWith(`${side}/`)) : [cellKey(side, row)];
  const kept = keys.some((key) => cells[key]?.kept?.some((one) => one.kind === doubt.kind));
  return !kept && keys.every((key) => cells[key]?.text === before[key]?.text);
}
