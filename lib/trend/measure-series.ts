import type { MeasureDoubt } from '../doubts/measure-doubt';
import { placeOf, recordMeasureDoubts } from '../doubts/record-measure-doubts';
import type { Policy } from '../limits/policy';
import type { NoAnswer } from '../outcome';
import { expectedGrowth } from '../parts/expected-growth';
import type { Measure } from '../parts/measure';
import { measureTaken } from '../parts/own-measure';
import type { NamedMeasure, PatientRecord, Visit } from '../record/patient-record';
import { REACH_95 } from '../statistics/reach-95';
import { type CalendarDay, daysBetween } from '../units/calendar-day';
import { mm } from '../units/length';

/** How a measure changed since the visit before, as shares of what it was; `expected` is what growth alone makes of it. */
export type MeasureChange = {
  readonly since: CalendarDay;
  readonly change: number;
  readonly smallestReal: number;
  readonly expected: number | NoAnswer;
};

/** One measure at one visit. */
export type MeasureAt = {
  readonly visit: Visit;
  readonly taken: NamedMeasure;
  readonly lengthMm: number;
  readonly sdMm: number;
  readonly doubts: readonly MeasureDoubt[];
  readonly sinceLast: MeasureChange | NoAnswer;
};

/** One named measure of one side over all visits that have it. */
export type MeasureSeries = { readonly measure: Measure; readonly taken: NamedMeasure; readonly visits: readonly MeasureAt[] };

const FIRST: NoAnswer = { noAnswer: 'This is the first visit with this measure.' };
const NONE_TRUSTED: NoAnswer = { noAnswer: 'Every earlier figure of this measure is asked about.' };

/**
 * Every named measure of a record over time, with its questions and its change from visit to visit.
 *
 * change = y₂ / y₁ − 1 against the last visit whose figure is not asked about; smallest real change = 1.96 √(σ² + σ²) / y₁, σ the reading
 * error of the catalogue times the clinic's scale: two readings, nothing else. What growth alone explains stands beside it where the
 * catalogue has a figure by age.
 * Shape: a record without heights and weights in doubt, the policy; mm and shares. Source: engine section 11.
 * Example: hand girth 200 then 212 mm, σ 2 mm: +6 %, smallest real change 2.8 %.
 */
export function measureSeries(record: PatientRecord, policy: Policy): MeasureSeries[] {
  const doubts = recordMeasureDoubts(record, policy);
  const places = new Map<string, { measure: Measure; taken: NamedMeasure; visits: MeasureAt[] }>();
  for (const visit of record.visits) {
    for (const taken of visit.measures ?? []) {
      const measure = measureTaken(taken);
      if (!measure) continue;
      const series = places.get(placeOf(taken)) ?? { measure, taken, visits: [] };
      places.set(placeOf(taken), series);
      const sdMm = measure.tapeSdMm * Math.sqrt(policy.errorScale);
      const at = { visit, taken, lengthMm: mm(taken.length.nm), sdMm, doubts: doubts.get(taken) ?? [] };
      series.visits.push({ ...at, sinceLast: changeSince(series.visits, at, measure, record) });
    }
  }
  return [...places.values()];
}

function changeSince(
  before: readonly MeasureAt[],
  now: Omit<MeasureAt, 'sinceLast'>,
  measure: Measure,
  record: PatientRecord,
): MeasureChange | NoAnswer {
  if (before.length === 0) return FIRST;
  const then = before.findLast((one) => one.doubts.length === 0);
  if (!then) return NONE_TRUSTED;
  const [from, to] = [then, now].map(({ visit }) => daysBetween(record.born, visit.day) / 365.25) as [number, number];
  const growth = expectedGrowth(measure, record.sex, from, to, then.lengthMm);
  return {
    since: then.visit.day,
    change: now.lengthMm / then.lengthMm - 1,
    smallestReal: (REACH_95 * Math.hypot(then.sdMm, now.sdMm)) / then.lengthMm,
    expected: growth.known ? growth.ratio - 1 : { noAnswer: `How the ${measure.name} grows at this age is not known.` },
  };
}
