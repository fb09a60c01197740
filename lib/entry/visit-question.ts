import type { KeptDoubt } from '../ladder/ladder';
import { limbInWords } from '../ladder/limb';
import { readDay, showDay } from '../units/calendar-day';
import { typedCount, type VisitForm } from '../visit-form/visit-form';
import { type Known, limbKey } from './entry-data';

/** A question about the visit itself, not about a rung: its height, its weight, a named measure, or a second visit of one day. */
export type VisitQuestion = {
  readonly kind: 'height' | 'weight' | 'second-visit' | 'measure';
  readonly message: string;
  /** The figure it asks about, as typed: another figure is another question. */
  readonly about: string;
  /** `left/hand-girth`, where it is about a named measure. */
  readonly where?: string;
  /** Text of a figure that would fit. */
  readonly wouldFit?: string;
};

/** Whether the same limb has another visit on this day, and what to ask then. */
export function secondVisit(form: VisitForm, known: Known): VisitQuestion | undefined {
  const limbs = form.sheets.flatMap((sheet) =>
    sheet.sides.filter((side) => typedCount(sheet, side) > 0).map((side) => ({ limb: sheet.limb, side, key: limbKey(sheet.limb, side) })),
  );
  const other = known.otherVisits.find(({ day, limbs: measured }) => day === form.day && limbs.some(({ key }) => measured.includes(key)));
  const limb = limbs.find(({ key }) => other?.limbs.includes(key));
  const day = readDay(form.day);
  if (!other || !limb || day.kind !== 'read') return undefined;
  const when = `${showDay(day.value)}${other.time ? `, ${other.time}` : ''}`;
  return {
    kind: 'second-visit',
    about: form.day,
    message: `Measured a second time? The ${limbInWords(limb.limb, limb.side)} has a visit on ${when} already.`,
  };
}

/** By what such a question is known on both sides of the wire: `visit/height/182`. */
export function visitQuestionKey({ kind, about }: VisitQuestion): string {
  return `visit/${kind}/${about}`;
}

/** The change of the form that keeps a height or a weight as typed. */
export function keptFigure(form: VisitForm, kind: 'height' | 'weight', by: string, at: string): Partial<VisitForm> {
  return { keptBody: [...withoutKept(form, kind), { kind, by, at }] };
}

/** The change of the form when a height or a weight is typed anew: what was kept of the old one is no answer any more. */
export function typedFigure(form: VisitForm, kind: 'height' | 'weight', text: string): Partial<VisitForm> {
  return { [kind]: text, ...(form.keptBody ? { keptBody: withoutKept(form, kind) } : {}) };
}

function withoutKept(form: VisitForm, kind: string): readonly KeptDoubt[] {
  return (form.keptBody ?? []).filter((one) => one.kind !== kind);
}
