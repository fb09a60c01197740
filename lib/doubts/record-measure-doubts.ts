import type { Policy } from '../limits/policy';
import type { NamedMeasure, PatientRecord, Visit } from '../record/patient-record';
import type { MeasureDoubt } from './measure-doubt';
import { measureDoubts } from './measure-doubts';
import { type EarlierMeasure, saysTheSame } from './measure-observations';

/** Every question that measures leave open, by measure; and of each measure and side the last figure that is trusted, and one in doubt since. */
export type MeasuresGoneThrough = {
  readonly doubts: ReadonlyMap<NamedMeasure, readonly MeasureDoubt[]>;
  readonly trusted: readonly EarlierMeasure[];
  readonly doubted: readonly EarlierMeasure[];
};

/**
 * Goes through the named measures of a record in order of time.
 *
 * Each measure is held against the last one of its side that is not itself in doubt, so that a slip expects nothing of the next visit. Where
 * two visits in a row say the same, neither is a slip, however unusual: both questions go. A question that was answered "keep" is not open,
 * and its figure is trusted.
 * Shape: a record without heights and weights in doubt, the policy.
 * Example: head girth 62 cm at two visits of a small woman: no question; 62 and then 54 cm: the first is asked about.
 */
export function goneThroughMeasures(record: PatientRecord, policy: Policy): MeasuresGoneThrough {
  const found = new Map<NamedMeasure, MeasureDoubt[]>();
  const trusted = new Map<string, EarlierMeasure>();
  const doubted = new Map<string, EarlierMeasure>();
  for (const visit of inOrder(record.visits)) {
    if (!visit.measures) continue;
    for (const doubt of measureDoubts(record, visit, [...trusted.values()], policy))
      if (!isKept(doubt)) found.set(doubt.taken, [...(found.get(doubt.taken) ?? []), doubt]);
    for (const taken of visit.measures) {
      const now = { day: visit.day, taken };
      const place = placeOf(taken);
      const then = doubted.get(place);
      if (then && saysTheSame(record, now, then, policy)) for (const one of [then, now]) found.delete(one.taken);
      doubted.delete(place);
      (found.has(taken) ? doubted : trusted).set(place, now);
    }
  }
  return { doubts: found, trusted: [...trusted.values()], doubted: [...doubted.values()] };
}

/** The open questions of a record by measure taken (`goneThroughMeasures`). */
export function recordMeasureDoubts(record: PatientRecord, policy: Policy): ReadonlyMap<NamedMeasure, readonly MeasureDoubt[]> {
  return goneThroughMeasures(record, policy).doubts;
}

/** True when somebody looked at the question and kept the figure. */
export function isKept({ taken, kind }: MeasureDoubt): boolean {
  return taken.kept?.some((one) => one.kind === kind) ?? false;
}

/** What makes two figures of different visits the same measure. */
export function placeOf({ measure, side }: Pick<NamedMeasure, 'measure' | 'side'>): string {
  return `${side} ${measure}`;
}

function inOrder(visits: readonly Visit[]): readonly Visit[] {
  return [...visits].sort((one, other) => (one.day + (one.time ?? '')).localeCompare(other.day + (other.time ?? '')));
}
