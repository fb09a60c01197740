import { bodyValue, carriedOn, type ExpectedFigure, expectedBody, lastBody } from '../growth/expected-body';
import type { Policy } from '../limits/policy';
import type { PatientRecord, Visit } from '../record/patient-record';
import { asked, type BodyDoubt, bodyDoubts, heightFigure, isBeyondBounds, weightFigure } from './body-doubts';

type Measure = 'height' | 'weight';

/**
 * Every question that the heights and weights of a record leave open, by visit.
 *
 * A figure is held against the nearest ones before and after it, so that a slip is told from a body that changed: it stands out from both,
 * which agree with each other. The first and the last are asked about only where their neighbour is itself in agreement. The strongest is
 * taken out and the rest looked at again. A first visit, and a figure with no other, is held against the tables and against the other figure.
 * Kept figures are not asked about. Shape: a record, visits in order of time; questions by visit, height before weight.
 * Example: heights 128, 182, 130 cm over a year: the second is asked about, the third is not.
 */
export function recordBodyDoubts(record: PatientRecord, policy: Policy): ReadonlyMap<Visit, readonly BodyDoubt[]> {
  const visits = [...record.visits].sort((one, other) => (one.day + (one.time ?? '')).localeCompare(other.day + (other.time ?? '')));
  const found = new Map<Visit, BodyDoubt[]>();
  const note = (visit: Visit, doubt: BodyDoubt) => found.set(visit, [...(found.get(visit) ?? []), doubt]);
  for (const measure of ['height', 'weight'] as const)
    for (const [visit, doubt] of outliers(measure, visits, record, policy)) note(visit, doubt);
  const first = visits.find((visit) => visit.height || visit.weight);
  if (first && !found.has(first)) {
    const expected = expectedBody(record, { height: undefined, weight: undefined }, first.day, policy);
    for (const doubt of bodyDoubts(first, expected, policy))
      if (!isBodyKept(first, doubt.kind) && !contradicted(doubt.kind)) note(first, doubt);
  }
  return found;

  /** Another figure of the person says the same as the first one: then it is not a slip, however unusual. */
  function contradicted(measure: Measure): boolean {
    const own = first && bodyValue(first, measure);
    const next = visits.find((visit) => visit !== first && visit[measure] && !found.get(visit)?.some(({ kind }) => kind === measure));
    if (!first || own === undefined || !next) return false;
    const expected = carriedOn(measure, record, { day: first.day, value: own }, next.day, policy);
    return Math.abs(apart(next, measure, expected)) < policy.bodySlipSds;
  }
}

/** The record with every height and weight that is in doubt left out: what nothing should be reckoned from. */
export function withoutBodyInDoubt(record: PatientRecord, policy: Policy): PatientRecord {
  const open = recordBodyDoubts(record, policy);
  if (open.size === 0) return record;
  const visits = record.visits.map((visit) => {
    const odd = open.get(visit)?.map(({ kind }) => kind) ?? [];
    return odd.length === 0
      ? visit
      : { ...visit, height: odd.includes('height') ? null : visit.height, weight: odd.includes('weight') ? null : visit.weight };
  });
  return { ...record, visits };
}

/** True when somebody looked at this height or weight and kept it. */
function isBodyKept(visit: Pick<Visit, 'keptBody'>, measure: Measure): boolean {
  return visit.keptBody?.some(({ kind }) => kind === measure) ?? false;
}

/** What stands open about the figures of one visit when it is typed: against the figures before it that are not themselves in doubt. */
export function bodyDoubtsNow(record: PatientRecord, now: Visit, policy: Policy): BodyDoubt[] {
  const before = record.visits.filter((visit) => visit !== now && visit.day <= now.day);
  const open = recordBodyDoubts({ ...record, visits: before }, policy);
  const last = lastBody(before, (visit, measure) => open.get(visit)?.some(({ kind }) => kind === measure) ?? false);
  return bodyDoubts(now, expectedBody(record, last, now.day, policy), policy).filter(({ kind }) => !isBodyKept(now, kind));
}

function outliers(measure: Measure, visits: readonly Visit[], record: PatientRecord, policy: Policy): [Visit, BodyDoubt][] {
  const rest = visits.filter((visit) => visit[measure]);
  const found: [Visit, BodyDoubt][] = [];
  for (;;) {
    let worst: { readonly visit: Visit; readonly doubt: BodyDoubt; readonly sds: number } | undefined;
    rest.forEach((visit, index) => {
      if (isBodyKept(visit, measure)) return;
      const expected = expectedAmong(measure, rest, index, record, policy);
      const doubt = expected && ask(visit, measure, expected, policy);
      const sds = expected ? Math.abs(apart(visit, measure, expected)) : 0;
      if (doubt && (!worst || sds > worst.sds)) worst = { visit, doubt, sds };
    });
    if (!worst) return found;
    found.push([worst.visit, worst.doubt]);
    rest.splice(rest.indexOf(worst.visit), 1);
  }
}

/** What the neighbours in time expect of a figure, where they can be asked; undefined where the figure agrees with one of them. */
function expectedAmong(
  measure: Measure,
  rest: readonly Visit[],
  index: number,
  record: PatientRecord,
  policy: Policy,
): ExpectedFigure | undefined {
  const visit = rest[index] as Visit;
  const by = (from: Visit | undefined, to: Visit | undefined): ExpectedFigure | undefined => {
    const value = from && bodyValue(from, measure);
    return from && to && value !== undefined ? carriedOn(measure, record, { day: from.day, value }, to.day, policy) : undefined;
  };
  const agree = (one: Visit | undefined, other: Visit | undefined): boolean => {
    const expected = by(one, other);
    return !expected || !other || Math.abs(apart(other, measure, expected)) < policy.bodySlipSds;
  };
  if (isBeyondBounds(measure, bodyValue(visit, measure) ?? 0))
    return expectedBody(record, { height: undefined, weight: undefined }, visit.day, policy)[measure];
  const [before, after] = [rest[index - 1], rest[index + 1]];
  const [fromBefore, fromAfter] = [by(before, visit), by(after, visit)];
  if (fromBefore && fromAfter) {
    const [one, other] = [apart(visit, measure, fromBefore), apart(visit, measure, fromAfter)];
    if (one * other <= 0) return undefined;
    return Math.abs(one) < Math.abs(other) ? fromBefore : fromAfter;
  }
  if (fromBefore) return agree(rest[index - 2], before) && !(rest.length === 2 && isOdder(before, visit)) ? fromBefore : undefined;
  if (fromAfter) return (rest.length > 2 ? agree(after, rest[index + 2]) : isOdder(visit, after)) ? fromAfter : undefined;
  return undefined;

  /** Of two figures that disagree, which one is further from what is usual at that age. */
  function isOdder(one: Visit | undefined, other: Visit | undefined): boolean {
    const far = (of: Visit | undefined) => {
      if (!of) return 0;
      const usual = expectedBody(record, { height: undefined, weight: undefined }, of.day, policy)[measure];
      return Math.abs(apart(of, measure, usual));
    };
    return far(one) > far(other);
  }
}

function ask(visit: Visit, measure: Measure, expected: ExpectedFigure, policy: Policy): BodyDoubt | undefined {
  const figure = measure === 'height' ? visit.height && heightFigure(visit.height) : visit.weight && weightFigure(visit.weight);
  return figure ? asked(figure, expected, true, policy) : undefined;
}

function apart(visit: Visit, measure: Measure, expected: ExpectedFigure): number {
  const value = bodyValue(visit, measure);
  return value === undefined ? 0 : Math.log(value / expected.value) / expected.sd;
}
